using System.Globalization;
using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Rejudging;
using ServiceRules.Application.Working;
using ServiceRules.Host.Notices;

namespace ServiceRules.Host.Rejudging;

/// <summary>Judges one page of the history again.</summary>
internal sealed partial class RejudgingWork(
    RejudgePage pages,
    RejudgingMeter meter,
    NoticeBell bell,
    IHostApplicationLifetime life,
    ILogger<RejudgingWork> log
) : IWork
{
    public const string Name = "rejudging";

    /// <summary>How many of this instance are done before it looks which come next; fewer than are handed over at once.</summary>
    private const int PagesOfARound = 8;

    private static readonly TimeSpan Least = TimeSpan.FromSeconds(1);
    private static readonly TimeSpan AfterTrouble = TimeSpan.FromSeconds(10);

    private int done;

    public string Kind => Name;

    /// <summary>A long history keeps no notice waiting.</summary>
    public string SharesWith(string what) => Name;

    public static string NameOf(RejudgingPage page) =>
        string.Create(CultureInfo.InvariantCulture, $"{page.Job.Number}-{page.Number}");

    public async Task<TimeSpan?> DoAsync(string what, CancellationToken stop)
    {
        if (
            what.Split('-') is not [var job, var page]
            || !long.TryParse(job, NumberStyles.None, CultureInfo.InvariantCulture, out var ofJob)
            || !long.TryParse(page, NumberStyles.None, CultureInfo.InvariantCulture, out var number)
        )
        {
            return null;
        }

        using var ending = CancellationTokenSource.CreateLinkedTokenSource(stop, life.ApplicationStopping);
        try
        {
            if (await pages.DoAsync(ofJob, number, ending.Token) is { } counts)
            {
                meter.Came(counts);
                Done(log, what, counts.LookedAt, counts.Turned, counts.Failed);
                if (Interlocked.Increment(ref done) % PagesOfARound == 0)
                {
                    bell.Ring();
                }
            }

            return null;
        }
        catch (OperationCanceledException) when (ending.IsCancellationRequested)
        {
            // The service stops: another instance, or the next start, begins the page anew.
            return Least;
        }
        catch (LedgerStoreException trouble) when (trouble.Trouble is StoreTrouble.Rows)
        {
            GivenUp(log, what, trouble);
            if (await pages.GiveUpAsync(ofJob, number, ending.Token) is { } counts)
            {
                meter.Came(counts);
            }

            return null;
        }
        catch (LedgerStoreException trouble) when (trouble.Trouble is not StoreTrouble.Damaged)
        {
            Waits(log, what, trouble.Trouble);
            return AfterTrouble;
        }
    }

    [LoggerMessage(Level = LogLevel.Error, Message = "the record of entry {Entry} cannot be judged again")]
    public static partial void NotJudged(ILogger logger, long entry, Exception defect);

    [LoggerMessage(
        Level = LogLevel.Information,
        Message = "page {Page} of the history is judged again: {Records} records, {Turned} turned, {Failed} failed"
    )]
    private static partial void Done(ILogger logger, string page, long records, long turned, long failed);

    [LoggerMessage(Level = LogLevel.Error, Message = "page {Page} of the history is given up")]
    private static partial void GivenUp(ILogger logger, string page, Exception trouble);

    [LoggerMessage(
        Level = LogLevel.Warning,
        Message = "page {Page} of the history is tried again: {Trouble}"
    )]
    private static partial void Waits(ILogger logger, string page, StoreTrouble trouble);
}
