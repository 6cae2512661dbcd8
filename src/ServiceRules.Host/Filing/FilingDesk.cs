using System.Collections.Concurrent;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Submitting;
using ServiceRules.Host.Notices;
using ServiceRules.Host.Watching;

namespace ServiceRules.Host.Filing;

/// <summary>Where requests get records judged and filed, counted and timed.</summary>
internal sealed class FilingDesk(
    OpenLedger ledger,
    SubmittingNow submitting,
    NoticeBell bell,
    ServiceMeter meter
)
{
    private readonly ConcurrentDictionary<SubmissionKey, bool> underWay = new();

    public AssessOutcome Judge(ReadOnlyMemory<byte> bytes) =>
        meter.Judged(() => submitting.Now().Judge(bytes));

    /// <summary>Files what was sent; null while the first request with its key has not ended.</summary>
    public async Task<SubmissionOutcome?> SubmitAsync(Submission submission, CancellationToken stop)
    {
        if (submission.Key is { } key && !underWay.TryAdd(key, true))
        {
            return null;
        }

        try
        {
            var outcome = await meter.SubmittedAsync(() => SubmitNowAsync(submission, stop));
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

    private Task<SubmissionOutcome> SubmitNowAsync(Submission submission, CancellationToken stop)
    {
        try
        {
            return submitting.Now().SubmitAsync(submission, stop);
        }
        catch (LedgerStoreException failure)
        {
            return Task.FromResult<SubmissionOutcome>(
                new SubmissionOutcome.Trouble(failure.Trouble, failure.Message)
            );
        }
    }
}
