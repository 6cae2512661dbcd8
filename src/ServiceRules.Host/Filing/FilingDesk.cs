using System.Collections.Concurrent;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Submitting;
using ServiceRules.Host.Notices;
using ServiceRules.Host.Watching;

namespace ServiceRules.Host.Filing;

/// <summary>Where requests get records of a site judged and filed, counted and timed.</summary>
/// <param name="ledger">The log.</param>
/// <param name="submitting">Judges by the registers of the site and files, by the rules in force.</param>
/// <param name="bell">Rung when something was filed.</param>
/// <param name="meter">Counts.</param>
/// <param name="site">The site, where there are several.</param>
internal sealed class FilingDesk(
    OpenLedger ledger,
    SubmittingNow submitting,
    NoticeBell bell,
    ServiceMeter meter,
    string? site = null
)
{
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
            var outcome = await meter.SubmittedAsync(() =>
                submitting.SubmitAsync(submission with { Site = site }, stop)
            );
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
