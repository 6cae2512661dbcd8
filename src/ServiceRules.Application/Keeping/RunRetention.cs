using ServiceRules.Application.Accounts;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Rows;
using ServiceRules.Evidence;
using ServiceRules.Formats.Ledger;

namespace ServiceRules.Application.Keeping;

/// <summary>
/// Removes contents whose time is over and that no hold keeps. Their entries stay, and an entry of the run names what was removed, so
/// that the log proves as before what was filed and when.
/// </summary>
public sealed class RunRetention(OpenLedger ledger)
{
    // Filings wait for one step at most.
    private const int StepRecords = 100;

    private readonly ContextUse contexts = new();

    /// <param name="today">The day.</param>
    /// <param name="caller">Who asks, as acts name it.</param>
    /// <param name="isDry">Whether it is only told what would be removed.</param>
    /// <param name="stop">Between two steps.</param>
    /// <exception cref="LedgerStoreException">The store could not do it; steps before stand.</exception>
    public RetentionRun Run(DateOnly today, string caller, bool isDry, CancellationToken stop = default)
    {
        var due = new List<string>();
        var held = new List<RetentionRun.HeldRecord>();
        var contents = 0;
        var looked = new HashSet<string>(StringComparer.Ordinal);
        RowPlace? beyond = null;
        do
        {
            stop.ThrowIfCancellationRequested();
            var page = ledger.Read(
                (log, rows) =>
                    Latest(RetentionOfLog.Read(log).Years, today) is { } until
                        ? rows.Records(
                            // The newest may have gone alone, with whoever it named.
                            new RecordFilter { Until = until, AllVersions = true },
                            new RowPaging
                            {
                                Most = StepRecords,
                                OldestFirst = true,
                                Beyond = beyond,
                            }
                        )
                        : null
            );
            if (page is null)
            {
                break;
            }

            var records = page
                .Rows.Select(row => row.Record)
                .Distinct(StringComparer.Ordinal)
                .Where(looked.Add)
                .ToList();
            var step = ledger.Read((log, rows) => Decide(log, rows, records, today));
            if (step.Removed.Count > 0 && !isDry)
            {
                step = Remove(records, today, caller);
            }

            due.AddRange(step.Due);
            held.AddRange(step.Held);
            contents += step.Removed.Count;
            beyond = page.Next;
        } while (beyond is not null);
        return new([.. due], contents, [.. held]);
    }

    private static DateOnly? Latest(Retention years, DateOnly today) =>
        new[] { years.Records, years.Assessments, years.Reports }.Min() is { } least
            ? today.AddDays(-1).AddYears(-least)
            : null;

    private static bool IsOver(int? years, DateOnly day, DateOnly today) =>
        years is { } some && day.AddYears(some) < today;

    private Step Remove(List<string> records, DateOnly today, string caller)
    {
        var step = Step.Nothing;
        var outcome = ledger.File(log =>
        {
            // Holds may have come, and versions, since it was looked at.
            step = Decide(log, log.Rows, records, today);
            if (step.Removed.Count == 0)
            {
                return new FilingPlan.File([], []);
            }

            var expiry = new Expiry([.. step.Removed]);
            var setting = RetentionOfLog.Read(log).Entry!;
            var draft = new EntryDraft(
                EntryKind.Expiry,
                RetentionOfLog.Subject,
                CanonicalForm.Of(ExpiryFormat.Current.Write(expiry)).Bytes
            )
            {
                Of = ContentHash.TryParse(setting.Entry.Content, out var of) ? of : null,
            };
            return LoggedActs.With(
                log,
                new FilingPlan.File([new FilingPart.New(draft)], [])
                {
                    Removed =
                    [
                        .. step.Removed.Select(text =>
                            ContentHash.TryParse(text, out var hash) ? hash : default
                        ),
                    ],
                },
                [new(ledger.Now, AccountAct.RetentionRan, caller, RetentionOfLog.Subject)]
            );
        });
        return outcome switch
        {
            FilingOutcome.Filed => step,
            FilingOutcome.Broken broken => throw new LedgerStoreException(
                StoreTrouble.Damaged,
                broken.Fault.ToString()
            ),
            _ => throw new InvalidOperationException("a run of retention was refused"),
        };
    }

    private Step Decide(ILedgerReading log, IRowReading rows, List<string> records, DateOnly today)
    {
        var years = RetentionOfLog.Read(log).Years;
        var holds = HoldsOfLog.Read(log);
        var due = new List<string>();
        var held = new List<RetentionRun.HeldRecord>();
        var removed = new SortedSet<string>(StringComparer.Ordinal);
        foreach (var record in records)
        {
            var over = Over(log, rows, record, years, today);
            if (over.Count == 0)
            {
                continue;
            }

            if (holds.Keeping(log, record) is { } hold)
            {
                held.Add(new(record, hold.Id));
                continue;
            }

            due.Add(record);
            removed.UnionWith(over);
        }

        if (removed.Count > 0)
        {
            contexts.Follow(log);
            removed.UnionWith(
                removed
                    .Select(one => ContextUse.Of(log, one))
                    .OfType<string>()
                    .Where(context => contexts.IsOnlyOf(log, context, removed))
                    .ToList()
            );
        }

        return new(due, held, removed);
    }

    // What another record has as well stays with it: reports and assessments name theirs, and a record its own identity.
    private static List<string> Over(
        ILedgerReading log,
        IRowReading rows,
        string record,
        Retention years,
        DateOnly today
    )
    {
        var versions = rows.Versions(record);
        if (versions.IsEmpty)
        {
            return [];
        }

        var day = versions.Max(version => version.Day);
        return
        [
            .. EntryReading
                .About(log, record)
                .Where(entry => IsOver(YearsOf(entry.Entry.Kind, years), day, today))
                .Select(entry => entry.Entry.Content)
                .Where(content => log.Sound(content) is not null)
                .Distinct(StringComparer.Ordinal),
        ];
    }

    private static int? YearsOf(EntryKind kind, Retention years) =>
        kind switch
        {
            EntryKind.Record or EntryKind.Amendment or EntryKind.Comment => years.Records,
            EntryKind.Assessment => years.Assessments,
            EntryKind.Report => years.Reports,
            _ => null,
        };

    private sealed record Step(
        List<string> Due,
        List<RetentionRun.HeldRecord> Held,
        SortedSet<string> Removed
    )
    {
        public static Step Nothing { get; } = new([], [], []);
    }
}
