using System.Collections.Immutable;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.SafeWork;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Evaluation.Duties;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Reporting.Reports.SafeWork;

/// <summary>One job of a period.</summary>
/// <param name="Index">Its place among the attached jobs.</param>
/// <param name="Job">The job.</param>
/// <param name="Found">What its record shows of safe work.</param>
internal sealed record PeriodJob(int Index, Assessed Job, SafeWorkFindings Found)
{
    public SafeWorkStanding Standing => Found.Standing;

    public bool IsOpen => Job.Assessment.State == RecordState.Open;

    /// <summary>Work that has begun on an open job and whose end is not shown: hands may be in now.</summary>
    public ImmutableArray<WorkInterval> HandsIn { get; } = HandsInNow(Job);

    /// <summary>Whose hands were in on an open job, are out, and may not go in again as its machine now stands.</summary>
    public ImmutableArray<Id<Participant>> NotAgain { get; } =
    [.. BackIn.Of(FrameBuilder.Build(Job.Record, Job.Context, Job.Book)).Select(one => one.Person)];

    /// <summary>The start of the first run with hands-on work going on; null: none is shown.</summary>
    public OrderedEvent? RanDuringWork { get; } = RunDuringWork(Job);

    /// <summary>Duties of this job that are not shown or not proven, and weigh; of an open job those that are due by now.</summary>
    public IEnumerable<SafeWorkFinding> OpenDuties =>
        Found.Open.Where(one =>
            one.Kind == SafeWorkKind.Duty && one.Finding.Effect != Effect.None && !one.IsToCome
        );

    /// <summary>The same by what leaves them open.</summary>
    public ImmutableArray<Cause> Causes => Cause.Of(OpenDuties);

    /// <summary>How far its entries cannot be taken at their word.</summary>
    public IEnumerable<SafeWorkFinding> Doubts =>
        Found.Open.Where(one => one.Kind == SafeWorkKind.Credibility);

    /// <summary>Something of it keeps the job in, or would; while it is open, whatever is not proven does.</summary>
    public bool NeedsAction =>
        OpenDuties.Any(one => IsOpen || one.Finding.Effect is Effect.Stop or Effect.Hold)
        || (IsOpen && Doubts.Any());

    /// <summary>The gravest thing that its open duties do.</summary>
    public Effect Gravest => OpenDuties.Select(one => one.Finding.Effect).DefaultIfEmpty().Max();

    private static OrderedEvent? RunDuringWork(Assessed job)
    {
        var reading = TimelineReading.Of(FrameBuilder.Build(job.Record, job.Context, job.Book));
        var both = reading.Running.And(reading.AnyWork).Intervals;
        if (both.IsEmpty)
        {
            return null;
        }
        var from = both[0].From;
        return reading.Energisings.LastOrDefault(start =>
            new TimelinePlace(start.Moment, start.Index) <= from
        );
    }

    private static ImmutableArray<WorkInterval> HandsInNow(Assessed job) =>
        job.Assessment.State != RecordState.Open
            ? []
            :
            [
                .. TimelineReading
                    .Of(FrameBuilder.Build(job.Record, job.Context, job.Book))
                    .Works.Where(work => work.Stop is null),
            ];
}
