using ServiceRules.Application.SafeWork;
using ServiceRules.Application.Submitting;
using ServiceRules.Evidence;
using ServiceRules.Formats.Ledger;

namespace ServiceRules.Application.Ledger;

/// <summary>
/// Files the report of a period. It speaks of its document of jobs, which is kept beside it: whoever is forgotten with
/// contents is found there, and the report goes with it.
/// </summary>
/// <param name="ledger">The log.</param>
/// <param name="areSeveral">Whether the installation is one of several sites.</param>
/// <param name="bringsBack">Whether somebody answers for it that what an erasure removed is filed again.</param>
public sealed class FilePeriodReport(OpenLedger ledger, bool areSeveral, bool bringsBack = false)
{
    /// <param name="period">What it tells.</param>
    /// <param name="report">The report.</param>
    /// <param name="along">What becomes durable with it or not at all; false: nothing is filed.</param>
    public FilingOutcome File(
        SafeWorkPeriod period,
        ReadOnlyMemory<byte> report,
        Func<ILedgerWriting, bool>? along = null
    )
    {
        ArgumentNullException.ThrowIfNull(period);
        var jobs = period.Evidence.Jobs;
        var draft = new EntryDraft(EntryKind.Report, SubjectOf(period), report) { Of = jobs.Hash };
        return ledger.File(
            log =>
            {
                JudgeAmongStored.HoldAgainst(log, areSeveral);
                if (along?.Invoke(log) is false)
                {
                    return new FilingPlan.Refuse(
                        new("somebody else makes this report meanwhile", "the report that is made there")
                    );
                }

                var standing = EntryReading
                    .About(log, draft.Subject)
                    .FirstOrDefault(entry =>
                        entry.Entry.Kind is EntryKind.Report && entry.Entry.Content == draft.Hash.ToString()
                    );
                return new FilingPlan.File(
                    [standing is null ? new FilingPart.New(draft) : new FilingPart.Standing(standing)],
                    [jobs.Bytes]
                );
            },
            bringsBack
        );
    }

    /// <summary>What such a report is about: its first day and its last.</summary>
    public static string SubjectOf(SafeWorkPeriod period)
    {
        ArgumentNullException.ThrowIfNull(period);
        return SubjectOf(period.From, period.Until);
    }

    public static string SubjectOf(DateOnly from, DateOnly until) =>
        FormattableString.Invariant($"safe-work.{from:yyyy-MM-dd}.{until:yyyy-MM-dd}");

    /// <summary>The entry of a report of this period with these bytes; null: there is none.</summary>
    public static FiledEntry? Find(ILedgerReading log, DateOnly from, DateOnly until, ContentHash report) =>
        EntryReading
            .About(log, SubjectOf(from, until))
            .LastOrDefault(entry =>
                entry.Entry.Kind is EntryKind.Report && entry.Entry.Content == report.ToString()
            );
}
