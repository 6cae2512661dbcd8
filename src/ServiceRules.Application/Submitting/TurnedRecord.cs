using System.Collections.Immutable;
using ServiceRules.Application.Ledger;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Formats.Assessments;
using ServiceRules.Formats.Ledger;

namespace ServiceRules.Application.Submitting;

/// <summary>That a stored record was judged again, in the light of another or by other rules: when, why, and what changed.</summary>
/// <param name="Entry">The entry of the new assessment, with the reason.</param>
/// <param name="Changes">Dispositions and findings that are others than in the assessment before.</param>
public sealed record TurnedRecord(FiledEntry Entry, ImmutableArray<VerdictChange> Changes)
{
    /// <summary>What was turned in the filing of a record.</summary>
    /// <param name="log">The log.</param>
    /// <param name="record">The record.</param>
    /// <param name="assessment">Place of its assessment in the log: the others stand behind it.</param>
    internal static ImmutableArray<TurnedRecord> InTheLightOf(
        ILedgerReading log,
        string record,
        long assessment
    )
    {
        var turned = ImmutableArray.CreateBuilder<TurnedRecord>();
        for (
            var index = assessment + 1;
            log.Entry(index) is { } stored
                && EntryReading.TryRead(stored, out var entry, out _)
                && entry.Entry.Kind is EntryKind.Assessment
                && entry.Entry.Reason == JudgedAgain.ReasonOf(record);
            index++
        )
        {
            var of = entry.Entry.Of;
            turned.Add(
                Told(
                    log,
                    entry,
                    EntryReading
                        .About(log, entry.Entry.Subject)
                        .LastOrDefault(one =>
                            one.Entry.Kind is EntryKind.Assessment
                            && one.Entry.Of == of
                            && one.Index < entry.Index
                        )
                )
            );
        }

        return turned.ToImmutable();
    }

    /// <summary>How often a version was judged again, the first time first.</summary>
    public static ImmutableArray<TurnedRecord> Of(ILedgerReading log, SubjectVersion version)
    {
        ArgumentNullException.ThrowIfNull(log);
        ArgumentNullException.ThrowIfNull(version);
        return
        [
            .. version
                .Assessments.Select(judged => judged.Entry)
                .Zip(version.Assessments.Select(judged => judged.Entry).Skip(1))
                .Where(pair => pair.Second.Entry.Reason is not null)
                .Select(pair => Told(log, pair.Second, pair.First)),
        ];
    }

    private static TurnedRecord Told(ILedgerReading log, FiledEntry entry, FiledEntry? before) =>
        new(
            entry,
            Read(log, before) is { } was && Read(log, entry) is { } now
                ? VerdictComparison.Between(was, now)
                : []
        );

    private static Assessment? Read(ILedgerReading log, FiledEntry? entry) =>
        entry is not null
        && log.Sound(entry.Entry.Content) is { } bytes
        && AssessmentFormat.Current.Read(bytes).TryGet(out var assessment, out _)
            ? assessment
            : null;
}
