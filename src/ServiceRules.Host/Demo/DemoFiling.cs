using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging;
using ServiceRules.Application.Demo;
using ServiceRules.Application.Ledger;
using ServiceRules.Host.Sites;

namespace ServiceRules.Host.Demo;

/// <summary>Files the jobs of the demo scenario, in their order, while the service answers already.</summary>
internal sealed partial class DemoFiling(
    OpenLedger ledger,
    ServedSites sites,
    ServiceSettings settings,
    DemoProgress progress,
    ILogger<DemoFiling> log
) : BackgroundService
{
    protected override Task ExecuteAsync(CancellationToken stoppingToken) =>
        Task.Run(() => Run(stoppingToken), CancellationToken.None);

    // Stopped before it began, it would never tell.
    public override async Task StopAsync(CancellationToken cancellationToken)
    {
        await base.StopAsync(cancellationToken);
        progress.BreakOff();
    }

    private void Run(CancellationToken stop)
    {
        try
        {
            File(stop);
        }
        finally
        {
            progress.BreakOff();
        }
    }

    private void File(CancellationToken stop)
    {
        var jobs = DemoScenario.Make(DemoScenario.UsualSeed, sites.Home.Registers);
        var judging = new DemoJudging(sites.Home.Rules, jobs);
        var some = jobs.Take(settings.DemoJobs ?? jobs.Length).ToList();
        progress.Begin(some.Count);
        var judged = new List<JudgedDemoJob>(some.Count);
        foreach (var job in some)
        {
            stop.ThrowIfCancellationRequested();
            var (assessed, outcome) = judging.File(ledger, job);
            judged.Add(new JudgedDemoJob(job, assessed.Assessment));
            if (outcome is not FilingOutcome.Filed)
            {
                // Somebody amended it, or it was forgotten: what stands there stays.
                NotFiled(log, outcome.GetType().Name);
            }

            progress.Filed();
        }

        Ended(log, some.Count);
        progress.End(DemoSummary.Of(judged));
    }

    [LoggerMessage(Level = LogLevel.Information, Message = "the {Jobs} jobs of the demo are filed")]
    private static partial void Ended(ILogger logger, int jobs);

    [LoggerMessage(Level = LogLevel.Information, Message = "a job of the demo stands otherwise: {Outcome}")]
    private static partial void NotFiled(ILogger logger, string outcome);
}
