using System.Diagnostics;
using System.Diagnostics.Metrics;
using Microsoft.Extensions.Logging;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Submitting;
using ServiceRules.Host.Filing;

namespace ServiceRules.Host.Watching;

/// <summary>What is counted and timed: submissions, verdicts, how long they take, how far the log has grown.</summary>
internal sealed partial class ServiceMeter : IDisposable
{
    public const string Name = "ServiceRules";

    private const string OutcomeTag = "outcome";

    private readonly ILogger<ServiceMeter> log;
    private readonly Meter meter;
    private readonly Counter<long> submissions;
    private readonly Counter<long> verdicts;
    private readonly Histogram<double> judging;
    private readonly Histogram<double> submitting;
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
            "how long reading and judging one record took, with nothing filed"
        );
        submitting = meter.CreateHistogram<double>(
            "servicerules.submission.duration",
            "s",
            "how long judging and filing one record took, until it was durable"
        );
        _ = meter.CreateObservableGauge(
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
            Tag(outcome is AssessOutcome.Judged ? "judged" : "refused")
        );
        return outcome;
    }

    public async Task<SubmissionOutcome> SubmittedAsync(Func<Task<SubmissionOutcome>> submit)
    {
        using var activity = activities.StartActivity("submit");
        var began = Stopwatch.GetTimestamp();
        var outcome = await submit();
        var word = WordOf(outcome);
        submitting.Record(Stopwatch.GetElapsedTime(began).TotalSeconds, Tag(word));
        submissions.Add(1, Tag(word));
        if (Added(outcome) is { } added)
        {
            Count(added);
            TellFiled(log, word, added.Record.Index);
        }
        else
        {
            TellNotFiled(log, word);
        }

        return outcome;
    }

    public void Grown(LedgerHead? head) => Interlocked.Exchange(ref ledgerSize, head?.Size ?? 0);

    public void Dispose()
    {
        activities.Dispose();
        meter.Dispose();
    }

    private static StoredSubmission? Added(SubmissionOutcome outcome) =>
        outcome switch
        {
            SubmissionOutcome.Stored one => one.Submission,
            SubmissionOutcome.Progressed one => one.Submission,
            SubmissionOutcome.Amended one => one.Submission,
            _ => null,
        };

    private void Count(StoredSubmission added)
    {
        if (added is { IsReplay: false, AssessmentBytes: { } assessment })
        {
            foreach (var (verdict, count) in ToldAssessment.Of(assessment).Verdicts)
            {
                verdicts.Add(count, new KeyValuePair<string, object?>("verdict", verdict));
            }
        }
    }

    private static KeyValuePair<string, object?> Tag(string word) => new(OutcomeTag, word);

    private static string WordOf(SubmissionOutcome outcome) =>
        outcome switch
        {
            SubmissionOutcome.Stored => "filed",
            SubmissionOutcome.Progressed => "progressed",
            SubmissionOutcome.Amended => "amended",
            SubmissionOutcome.Stood => "stood",
            SubmissionOutcome.Refused => "refused",
            SubmissionOutcome.Conflict or SubmissionOutcome.Declined => "conflict",
            SubmissionOutcome.OtherBody => "key-reused",
            _ => "trouble",
        };

    // By its place in the log: identities of records and people stay out of it.
    [LoggerMessage(Level = LogLevel.Information, Message = "a record {Outcome}: entry {Entry}")]
    private static partial void TellFiled(ILogger logger, string outcome, long entry);

    [LoggerMessage(Level = LogLevel.Information, Message = "nothing was added: {Outcome}")]
    private static partial void TellNotFiled(ILogger logger, string outcome);
}
