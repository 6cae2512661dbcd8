using System.Diagnostics;
using System.Diagnostics.Metrics;
using Microsoft.Extensions.Logging;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.Ledger;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Host.Filing;

namespace ServiceRules.Host.Watching;

/// <summary>What is counted and timed: submissions, verdicts, how long judging takes, how far the log has grown.</summary>
internal sealed partial class ServiceMeter : IDisposable
{
    public const string Name = "ServiceRules";

    private readonly ILogger<ServiceMeter> log;
    private readonly Meter meter;
    private readonly Counter<long> submissions;
    private readonly Counter<long> verdicts;
    private readonly Histogram<double> judging;
    private readonly ActivitySource activities = new(Name);

    private long ledgerSize;

    public ServiceMeter(IMeterFactory meters, ILogger<ServiceMeter> log)
    {
        this.log = log;
        meter = meters.Create(Name);
        submissions = meter.CreateCounter<long>(
            "servicerules.submissions",
            "{submission}",
            "records submitted, by what came of them"
        );
        verdicts = meter.CreateCounter<long>(
            "servicerules.verdicts",
            "{finding}",
            "findings of records that were filed, by verdict"
        );
        judging = meter.CreateHistogram<double>(
            "servicerules.judging.duration",
            "s",
            "how long reading and judging one record took"
        );
        meter.CreateObservableGauge(
            "servicerules.ledger.size",
            () => Interlocked.Read(ref ledgerSize),
            "{entry}",
            "entries of the log"
        );
    }

    public AssessOutcome Judged(Func<AssessOutcome> judge)
    {
        using var activity = activities.StartActivity("judge");
        var began = Stopwatch.GetTimestamp();
        var outcome = judge();
        judging.Record(
            Stopwatch.GetElapsedTime(began).TotalSeconds,
            new KeyValuePair<string, object?>(
                "outcome",
                outcome is AssessOutcome.Judged ? "judged" : "refused"
            )
        );
        return outcome;
    }

    public void Submitted(Submission submission)
    {
        var outcome = submission switch
        {
            Submission.Stands { Filed.IsNew: true } => "filed",
            Submission.Stands => "stood",
            Submission.Unreadable => "refused",
            _ => "conflict",
        };
        submissions.Add(1, new KeyValuePair<string, object?>("outcome", outcome));
        if (submission is not Submission.Stands stands)
        {
            TellRefused(log, outcome);
            return;
        }

        Grown(stands.Filed.Head);
        if (stands.Filed.IsNew)
        {
            foreach (var verdict in stands.Assessed.Assessment.Findings.CountBy(finding => finding.Verdict))
            {
                verdicts.Add(verdict.Value, new KeyValuePair<string, object?>("verdict", Word(verdict.Key)));
            }
        }

        var disposition = Word(stands.Assessed.Assessment.Job.Disposition);
        TellFiled(log, outcome, stands.Filed.Entries[^1].Entry.Index, disposition);
    }

    public void Grown(LedgerHead? head) => Interlocked.Exchange(ref ledgerSize, head?.Size ?? 0);

    public void Dispose()
    {
        activities.Dispose();
        meter.Dispose();
    }

    private static string Word(Verdict verdict) =>
        verdict switch
        {
            Verdict.Met => "met",
            Verdict.NotMet => "not-met",
            Verdict.Unproven => "unproven",
            _ => "not-applicable",
        };

    private static string Word(Disposition disposition) =>
        disposition switch
        {
            Disposition.Release => "release",
            Disposition.Hold => "hold",
            _ => "stop",
        };

    // By their place in the log: identities of records and people stay out of it.
    [LoggerMessage(
        Level = LogLevel.Information,
        Message = "a record {Outcome}: entry {Entry}, {Disposition}"
    )]
    private static partial void TellFiled(ILogger logger, string outcome, long entry, string disposition);

    [LoggerMessage(Level = LogLevel.Information, Message = "a record was not filed: {Outcome}")]
    private static partial void TellRefused(ILogger logger, string outcome);
}
