using System.Collections.Immutable;
using System.Globalization;
using System.Text.Json;
using ServiceRules.Application.Ledger;
using ServiceRules.Formats.Assessments;
using ServiceRules.Formats.Ledger;

namespace ServiceRules.Application.Keeping;

/// <summary>The holds that a log knows, and what they keep. Whatever cannot be told is kept.</summary>
public sealed class HoldsOfLog
{
    // As the canonical spelling of an entry has it: entries are many, and holds few.
    private static ReadOnlySpan<byte> Mark => "\"kind\":\"hold\""u8;

    private HoldsOfLog(ImmutableArray<Hold> all) => All = all;

    /// <summary>In the order in which they were made, lifted ones too.</summary>
    public ImmutableArray<Hold> All { get; }

    /// <exception cref="LedgerStoreException">What a hold keeps is gone, and no erasure removed it.</exception>
    public static HoldsOfLog Read(ILedgerReading log)
    {
        ArgumentNullException.ThrowIfNull(log);
        return Of(Entries(log), log.Kept);
    }

    /// <summary>
    /// The same by the names that holds are given, without going through the whole log: for those who look. Of one whose words are gone
    /// it is not asked whether they were erased: it keeps all.
    /// </summary>
    /// <exception cref="BrokenLogException">One of them is no entry.</exception>
    public static HoldsOfLog ReadByName(ILedgerReading log)
    {
        ArgumentNullException.ThrowIfNull(log);
        return Of(Named(log), log.Sound);
    }

    /// <summary>What the holds of a log are called, one after the other.</summary>
    internal static string NameOf(int number) => string.Create(CultureInfo.InvariantCulture, $"H-{number}");

    private static HoldsOfLog Of(IEnumerable<FiledEntry> entries, Func<string, ReadOnlyMemory<byte>?> content)
    {
        var found = new List<Hold>();
        foreach (var entry in entries)
        {
            var document =
                content(entry.Entry.Content) is { } bytes
                && HoldFormat.Current.Read(bytes).TryGet(out var read, out _)
                    ? read
                    : null;
            var known = found.FindIndex(hold => hold.Id == entry.Entry.Subject);
            if (known < 0)
            {
                found.Add(new(entry.Entry.Subject, entry, document, null));
            }
            else if (found[known].Holds)
            {
                found[known] = found[known] with { Lifted = entry };
            }
        }

        return new([.. found]);
    }

    /// <summary>The hold that keeps a record; null when none does.</summary>
    public Hold? Keeping(ILedgerReading log, string record)
    {
        var inForce = All.Where(hold => hold.Holds).ToList();
        if (inForce.Count == 0)
        {
            return null;
        }

        var about = EntryReading.About(log, record).ToList();
        return inForce.Find(hold => Fits(log, hold, record, about));
    }

    /// <summary>The holds that a record falls under, lifted ones too, of which it is still known what they kept.</summary>
    public ImmutableArray<Hold> About(ILedgerReading log, string record)
    {
        if (All.IsEmpty)
        {
            return [];
        }

        var about = EntryReading.About(log, record).ToList();
        return
        [
            .. All.Where(hold => (hold.Holds || hold.Scope is not null) && Fits(log, hold, record, about)),
        ];
    }

    /// <summary>The hold that keeps every trace of a person.</summary>
    public Hold? Of(string person) => All.FirstOrDefault(hold => hold.Holds && hold.Scope?.Person == person);

    private static bool Fits(ILedgerReading log, Hold hold, string record, List<FiledEntry> about)
    {
        if (hold.Scope is not { } scope)
        {
            return true;
        }

        if (scope.Record is { } one && one != record)
        {
            return false;
        }

        var versions = about
            .Where(entry => entry.Entry.Kind is EntryKind.Record or EntryKind.Amendment)
            .Select(entry => log.Sound(entry.Entry.Content))
            .OfType<ReadOnlyMemory<byte>>()
            .Select(bytes => Part.Of(bytes))
            .ToList();
        return (scope.Machine is not { } machine || versions.Exists(version => version.Machine == machine))
            && (
                (scope.From is null && scope.Until is null)
                || versions.Exists(version =>
                    version.Day is not { } day || ((scope.From ?? day) <= day && day <= (scope.Until ?? day))
                )
            )
            && (scope.Person is not { } person || about.Exists(entry => Names(log, entry, person)));
    }

    private static bool Names(ILedgerReading log, FiledEntry entry, string person) =>
        IsBehind(log, entry.Entry.By, person)
        || IsBehind(log, entry.Entry.Sender?.Person, person)
        || (
            log.Sound(entry.Entry.Content) is { } bytes
            && (
                WhereNamed.Names(bytes, person)
                || (
                    entry.Entry.Kind is EntryKind.Assessment
                    && AssessmentFormat.DigestsOf(bytes.Span)?.Context is { } context
                    && log.Sound(context) is { } registers
                    && WhereNamed.Names(registers, person)
                )
            )
        );

    private static bool IsBehind(ILedgerReading log, string? pseudonym, string person) =>
        pseudonym is not null && log.PersonBehind(pseudonym) == person;

    private static IEnumerable<FiledEntry> Named(ILedgerReading log)
    {
        for (var number = 1; ; number++)
        {
            // A record may be called so as well.
            var entries = EntryReading
                .About(log, NameOf(number))
                .Where(entry => entry.Entry.Kind is EntryKind.Hold)
                .ToList();
            if (entries.Count == 0)
            {
                yield break;
            }

            foreach (var entry in entries)
            {
                yield return entry;
            }
        }
    }

    private static IEnumerable<FiledEntry> Entries(ILedgerReading log)
    {
        foreach (var stored in log.Entries(0))
        {
            if (
                stored.Bytes.Span.IndexOf(Mark) >= 0
                && EntryReading.TryRead(stored, out var entry, out _)
                && entry.Entry.Kind is EntryKind.Hold
            )
            {
                yield return entry;
            }
        }
    }

    private sealed record Part(string? Machine, DateOnly? Day)
    {
        // Read as JSON and not as of one version of the format, since a log outlives those.
        public static Part Of(ReadOnlyMemory<byte> record)
        {
            using var said = JsonDocument.Parse(record);
            var machine =
                said.RootElement.TryGetProperty("machine", out var of) && of.TryGetProperty("id", out var id)
                    ? id.GetString()
                    : null;
            return new(
                machine,
                said.RootElement.TryGetProperty("date", out var date)
                && DateOnly.TryParseExact(
                    date.GetString(),
                    "yyyy-MM-dd",
                    CultureInfo.InvariantCulture,
                    DateTimeStyles.None,
                    out var day
                )
                    ? day
                    : null
            );
        }
    }
}
