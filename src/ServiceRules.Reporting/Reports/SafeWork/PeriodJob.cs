using ServiceRules.Application.Assessing;
using ServiceRules.Application.SafeWork;
using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Reporting.Reports.SafeWork;

/// <summary>One job of a period.</summary>
/// <param name="Index">Its place among the attached jobs.</param>
/// <param name="Job">The job.</param>
/// <param name="Found">What its record shows of safe work.</param>
internal sealed record PeriodJob(int Index, Assessed Job, SafeWorkFindings Found)
{
    public SafeWorkStanding Standing => Found.Standing;

    public bool IsOpen => Job.Assessment.State == RecordState.Open;

    /// <summary>Duties of this job that are not shown or not proven, and weigh; of an open job those that are due by now.</summary>
    public IEnumerable<SafeWorkFinding> OpenDuties =>
        Found.Open.Where(one =>
            one.Kind == SafeWorkKind.Duty && one.Finding.Effect != Effect.None && !one.IsToCome
        );

    /// <summary>Something of it keeps the job in, or would.</summary>
    public bool NeedsAction => OpenDuties.Any(one => one.Finding.Effect is Effect.Stop or Effect.Hold);

    /// <summary>The gravest thing that its open duties do.</summary>
    public Effect Gravest => OpenDuties.Select(one => one.Finding.Effect).DefaultIfEmpty().Max();
}
