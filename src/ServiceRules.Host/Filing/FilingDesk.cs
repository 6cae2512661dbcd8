using System.Collections.Concurrent;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Notices;
using ServiceRules.Application.Submitting;
using ServiceRules.Host.Notices;
using ServiceRules.Host.Watching;

namespace ServiceRules.Host.Filing;

/// <summary>Where requests get records judged and filed, counted and timed.</summary>
internal sealed class FilingDesk(
    OpenLedger ledger,
    AssessRecord judging,
    GroupFiling filing,
    NoticeRecipients recipients,
    NoticeBell bell,
    ServiceMeter meter
)
{
    private readonly SubmitRecord submitting = new(judging, ledger, filing, recipients);
    private readonly ConcurrentDictionary<SubmissionKey, bool> underWay = new();

    public AssessOutcome Judge(ReadOnlyMemory<byte> bytes) => meter.Judged(() => submitting.Judge(bytes));

    /// <summary>Files what was sent; null while the first request with its key has not ended.</summary>
    public async Task<SubmissionOutcome?> SubmitAsync(Submission submission, CancellationToken stop)
    {
        if (submission.Key is { } key && !underWay.TryAdd(key, true))
        {
            return null;
        }

        try
        {
            var outcome = await meter.SubmittedAsync(() => submitting.SubmitAsync(submission, stop));
            meter.Grown(ledger.Head);
            bell.Ring();
            return outcome;
        }
        finally
        {
            if (submission.Key is { } ended)
            {
                _ = underWay.TryRemove(ended, out _);
            }
        }
    }
}
