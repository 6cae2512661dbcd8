using ServiceRules.Application.SafeWork;
using ServiceRules.Formats.Ledger;

namespace ServiceRules.Application.Ledger;

/// <summary>
/// Files the report of a period. It speaks of its document of jobs, which is kept beside it: whoever is forgotten with
/// contents is found there, and the report goes with it.
/// </summary>
public sealed class FilePeriodReport(OpenLedger ledger, bool bringsBack = false)
{
    public FilingOutcome File(SafeWorkPeriod period, ReadOnlyMemory<byte> report)
    {
        ArgumentNullException.ThrowIfNull(period);
        var jobs = period.Evidence.Jobs;
        var draft = new EntryDraft(EntryKind.Report, SubjectOf(period), report) { Of = jobs.Hash };
        return ledger.File(
            log =>
            {
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
        return FormattableString.Invariant($"safe-work.{period.From:yyyy-MM-dd}.{period.Until:yyyy-MM-dd}");
    }
}
