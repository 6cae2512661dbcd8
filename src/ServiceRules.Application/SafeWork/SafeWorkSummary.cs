using System.Collections.Immutable;
using ServiceRules.Application.Assessing;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Formats.SafeWork;
using ServiceRules.Rules.Model;

namespace ServiceRules.Application.SafeWork;

/// <summary>A period as a document: what other programs read of it. It follows from the jobs and the rules.</summary>
public sealed record SafeWorkSummary(
    DateOnly From,
    DateOnly Until,
    SafeWorkSummary.Count Totals,
    ImmutableArray<SafeWorkSummary.Duty> Duties,
    ImmutableArray<SafeWorkSummary.Job> Jobs
)
{
    /// <summary>How many jobs stand how.</summary>
    public sealed record Count(
        int Jobs,
        int Shown,
        int NotShown,
        int NotProven,
        int InProgress,
        int NotJudged,
        int? Exempt
    );

    /// <summary>One rule about safe work over the period.</summary>
    public sealed record Duty(
        Id<Rule> Rule,
        SafeWorkKind Kind,
        int Shown,
        int NotShown,
        int NotProven,
        int DoesNotApply
    );

    /// <summary>One job.</summary>
    public sealed record Job(
        Id<ServiceRecord> Record,
        DateOnly Date,
        Id<MachineVisit> Machine,
        string Site,
        SafeWorkStanding Standing,
        Disposition Disposition,
        AssessmentDigests Digests,
        string Assessment,
        ImmutableArray<string> NotShown,
        ImmutableArray<string> NotProven
    );

    /// <summary>The summary of judged jobs.</summary>
    public static SafeWorkSummary Of(SafeWorkJobs told, ImmutableArray<Assessed> jobs)
    {
        ArgumentNullException.ThrowIfNull(told);
        var found = jobs.Select(job => (Job: job, Found: SafeWorkFindings.Of(job))).ToList();
        int With(SafeWorkStanding standing) => found.Count(one => one.Found.Standing == standing);
        return new(
            told.From,
            told.Until,
            new(
                jobs.Length,
                With(SafeWorkStanding.Shown),
                With(SafeWorkStanding.NotShown),
                With(SafeWorkStanding.NotProven),
                With(SafeWorkStanding.InProgress),
                With(SafeWorkStanding.NotJudged),
                With(SafeWorkStanding.Exempt) is > 0 and var exempt ? exempt : null
            ),
            [
                .. found
                    .SelectMany(one => one.Found.All)
                    .GroupBy(one => one.Finding.Rule, StringComparer.Ordinal)
                    .OrderBy(same => same.Key, StringComparer.Ordinal)
                    .Select(same => DutyOf([.. same])),
            ],
            [.. found.Select(one => JobOf(one.Job, one.Found))]
        );
    }

    private static Duty DutyOf(ImmutableArray<SafeWorkFinding> same)
    {
        int With(Verdict verdict) => same.Count(one => one.Finding.Verdict == verdict);
        return new(
            same[0].Rule.Id,
            same[0].Kind,
            With(Verdict.Met),
            With(Verdict.NotMet),
            With(Verdict.Unproven),
            With(Verdict.NotApplicable)
        );
    }

    private static Job JobOf(Assessed job, SafeWorkFindings found)
    {
        ImmutableArray<string> With(Verdict verdict) =>
            [
                .. found
                    .All.Where(one => one.Finding.Verdict == verdict)
                    .Select(one => one.Finding.Rule)
                    .Distinct(StringComparer.Ordinal)
                    .Order(StringComparer.Ordinal),
            ];
        return new(
            job.Record.Id,
            job.Record.Date,
            job.Record.Machine.Id,
            job.Context.Site,
            found.Standing,
            job.Assessment.Job.Disposition,
            job.Assessment.Digests,
            job.Evidence.Assessment.Hash.ToString(),
            With(Verdict.NotMet),
            With(Verdict.Unproven)
        );
    }
}
