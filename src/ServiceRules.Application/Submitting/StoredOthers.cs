using System.Collections.Immutable;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Library;
using ServiceRules.Application.Rows;
using ServiceRules.Domain.Timeline;
using ServiceRules.Engine;
using ServiceRules.Formats.Records;

namespace ServiceRules.Application.Submitting;

/// <summary>
/// Finds the stored records that may bear on a job, by the rows, and keeps what was read of them. Safe to share between
/// threads.
/// </summary>
/// <param name="site">The site; those of another one bear on nothing here.</param>
/// <param name="isOfSeveral">Whether records of other sites are stored as well.</param>
internal sealed class StoredOthers(SiteRegisters site, bool isOfSeveral = false)
{
    // What is kept of a record is its timeline; a shop files fewer in the days that are asked about.
    private const int KeptRecords = 2_048;

    // An open job goes on for a shift past its last entry, and the day of a time depends on the offset it is written with.
    private const int DaysAside = 2;

    // Defects of a machine bear on its jobs until they are put right, however old: the last ones, found or put right.
    private const int DefectsMost = 64;

    private readonly BoundedCache<string, Kept> kept = new(KeptRecords, StringComparer.Ordinal);

    /// <summary>
    /// What is kept of the record of a row that is followed by another version; null where its content is gone or cannot be read.
    /// </summary>
    public WorkElsewhere.RecordTold? Followed(ILedgerReading log, RecordRow row) =>
        log.Sound(row.RecordHash) is null ? null : Told(log, row);

    /// <summary>The stored records that may bear on a job, and on which it may bear; none twice, and not the job itself.</summary>
    /// <param name="own">The job.</param>
    /// <param name="now">What is stored.</param>
    /// <param name="named">Records that are among them whatever the rows say: those that were taken into account before.</param>
    public ImmutableArray<StoredOther> Near(
        WorkElsewhere.RecordTold own,
        StoredNow now,
        IEnumerable<string> named
    )
    {
        if (own.Shown is not { } shown)
        {
            return [];
        }

        var question = new Question(shown, site, isOfSeveral, now.Rows);
        var found = new List<StoredOther>();
        var seen = new HashSet<string>(StringComparer.Ordinal) { own.Id.Text };
        Add(
            question
                .OfTheJob()
                .Concat(
                    named.SelectMany(id => now.Rows.Versions(id).Where(row => row.IsNewest && IsOwn(row)))
                )
        );
        // Who hung a lock that comes off by an exception may stand in another record alone, and is looked for everywhere.
        Add(question.OfPeople(OwnersOfTaken(shown, found)));
        return [.. found];

        void Add(IEnumerable<RecordRow> rows)
        {
            foreach (var row in rows.Where(row => seen.Add(row.Record)))
            {
                if (Told(now.Log, row) is { } told)
                {
                    found.Add(new StoredOther(row, told));
                }
            }
        }
    }

    // Nobody is judged safe by what is lost of another job: a lock of it may still hang.
    private WorkElsewhere.RecordTold? Told(ILedgerReading log, RecordRow row) =>
        kept.GetOrMake(row.RecordHash, () => new Kept(Read(log, row))).Told;

    private bool IsOwn(RecordRow row) => !isOfSeveral || row.Site == site.Name;

    private static ImmutableArray<string> OwnersOfTaken(RecordShown own, List<StoredOther> found)
    {
        var taken = own.Of(TimelineEventKind.LockRemoved, TimelineEventKind.TagRemoved)
            .Where(entry => entry.Event.Exception is not null)
            .Select(entry => entry.Event.Lock)
            .ToHashSet();
        return taken.Count == 0
            ? []
            :
            [
                .. found
                    .Select(other => other.Told.Shown)
                    .OfType<RecordShown>()
                    .Append(own)
                    .SelectMany(shown =>
                        shown.Of(TimelineEventKind.LockApplied, TimelineEventKind.TagApplied)
                    )
                    .Where(entry => taken.Contains(entry.Event.Lock))
                    .Select(entry => entry.Event.Actor.Text)
                    .Distinct(StringComparer.Ordinal),
            ];
    }

    // Bench lines tell where hands were, and stay with the timeline; everything else of the units is not kept.
    private WorkElsewhere.RecordTold? Read(ILedgerReading log, RecordRow row)
    {
        try
        {
            return
                log.Kept(row.RecordHash) is { } bytes
                && RecordFormat.Current.Read(bytes).TryGet(out var record, out _, out _)
                ? WorkElsewhere.Read(record, site.Zone)
                : null;
        }
        catch (LedgerStoreException lost) when (lost.Trouble is StoreTrouble.Damaged)
        {
            throw new LedgerStoreException(
                StoreTrouble.Damaged,
                $"what {LedgerWords.Entry(row.Index)} shows may bear on it: {lost.Message}",
                lost
            )
            {
                Place = LedgerWords.Entry(row.Index),
            };
        }
    }

    private sealed record Kept(WorkElsewhere.RecordTold? Told);

    /// <summary>The questions about one job.</summary>
    private sealed class Question
    {
        private readonly SiteRegisters site;
        private readonly bool isOfSeveral;
        private readonly IRowReading rows;
        private readonly RecordShown own;
        private readonly DateOnly first;
        private readonly DateOnly last;

        public Question(RecordShown own, SiteRegisters site, bool isOfSeveral, IRowReading rows)
        {
            (this.own, this.site, this.isOfSeveral, this.rows) = (own, site, isOfSeveral, rows);
            var days = own
                .Events.Select(entry => entry.Event.At)
                .Append(own.SignOff?.At)
                .OfType<RecordedTime>()
                .Select(site.Zone.DayOf)
                .ToList();
            (first, last) = (days.Min().AddDays(-DaysAside), days.Max().AddDays(DaysAside));
        }

        public ImmutableArray<RecordRow> OfTheJob()
        {
            var machine = own.Machine.Text;
            return
            [
                .. Ask(ShownKind.Machine, [machine], first, last),
                .. OfPeople([.. Distinct(own.Events.Select(entry => entry.Event.Actor.Text))]),
                .. OfLocks([
                    .. Distinct(own.Events.Select(entry => entry.Event.Lock?.Text).OfType<string>()),
                ]),
                .. Ask(ShownKind.Defect, [machine], null, last, DefectsMost),
                // Whoever puts the machine back to work with a defect open does so in a later job.
                .. own.DefectsLeft() > 0
                    ? Ask(ShownKind.Machine, [machine], last, last.AddDays(ShownFilter.LongestJobDays))
                    : [],
                .. Ask(ShownKind.Exception, [""], first, last),
            ];
        }

        public ImmutableArray<RecordRow> OfPeople(ImmutableArray<string> people) =>
            people.IsEmpty ? [] : Ask(ShownKind.Person, people, first, last);

        // A lock hangs until somebody enters that it came off. What is told of it within the longest job shows where it is;
        // if nothing is, the record before that, however old, and the one after it.
        private ImmutableArray<RecordRow> OfLocks(ImmutableArray<string> locks)
        {
            if (locks.IsEmpty)
            {
                return [];
            }

            var (from, until) = (
                first.AddDays(-ShownFilter.LongestJobDays),
                last.AddDays(ShownFilter.LongestJobDays)
            );
            return
            [
                .. Ask(ShownKind.Lock, locks, from, until),
                .. locks.SelectMany(device => Nearest(device, null, from.AddDays(-1), false)),
                .. locks.SelectMany(device => Nearest(device, until.AddDays(1), null, true)),
            ];
        }

        // Of one day all: which of them was the last, its rows do not say.
        private IEnumerable<RecordRow> Nearest(string device, DateOnly? from, DateOnly? until, bool earliest)
        {
            const int most = 8;
            var found = rows.Shown(
                new(ShownKind.Lock, [device])
                {
                    Site = site.Name,
                    IsKnownAlone = isOfSeveral,
                    From = from,
                    Until = until,
                    EarliestFirst = earliest,
                    Most = most,
                }
            );
            return found.TakeWhile(row => row.Day == found[0].Day);
        }

        private ImmutableArray<RecordRow> Ask(
            ShownKind what,
            ImmutableArray<string> keys,
            DateOnly? from,
            DateOnly until,
            int most = ShownFilter.MostRecords
        ) =>
            rows.Shown(
                new(what, keys)
                {
                    Site = site.Name,
                    IsKnownAlone = isOfSeveral,
                    From = from,
                    Until = until,
                    Most = most,
                }
            );

        private static IEnumerable<string> Distinct(IEnumerable<string> keys) =>
            keys.Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal);
    }
}
