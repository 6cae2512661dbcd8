using System.Collections.Immutable;
using FsCheck;
using FsCheck.Xunit;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.Tests.Demo;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Application.Tests.Assessing;

/// <summary>A job of two people, written as one record and as two records given together.</summary>
public sealed class SplitJobTests
{
    private static readonly AssessRecord Judging = new(DemoSeasons.Rules.Book, DemoSeasons.Site);

    private static readonly ImmutableArray<ServiceRecord> ByTwo =
    [
        .. DemoSeasons
            .Jobs.Select(job => job.Record)
            .Where(record =>
                record.Timeline.Where(IsWork).Select(entry => entry.Actor).Distinct().Count() == 2
            )
            .Take(12),
    ];

    [Fact]
    public void Split_ThereAreJobsByTwo_ToSplit() => Assert.NotEmpty(ByTwo);

    /// <summary>Whatever is left out of it, and to whichever of the two it is given.</summary>
    [Property(MaxTest = 60)]
    public bool Split_OfAJobByTwo_NeverLoosensIt(PositiveInt which, int seed)
    {
        var chosen = ByTwo[which.Get % ByTwo.Length];
        var random = new Random(seed);
        var job = chosen with { Timeline = [.. chosen.Timeline.Where(_ => random.Next(12) > 0)] };
        return Worst(Split(job)) >= Worst([job]);
    }

    private static ServiceRecord[] Split(ServiceRecord job)
    {
        var people = job.Timeline.Where(IsWork).Select(entry => entry.Actor).Distinct().ToList();
        return
        [
            .. people.Select(
                (person, index) =>
                    job with
                    {
                        Id = new($"{job.Id}-{index + 1}"),
                        People = [.. job.People.Where(one => one.Id == person || !people.Contains(one.Id))],
                        Timeline =
                        [
                            .. job.Timeline.Where(entry =>
                                entry.Actor == person || (index == 0 && !people.Contains(entry.Actor))
                            ),
                        ],
                    }
            ),
        ];
    }

    private static Disposition Worst(ServiceRecord[] records)
    {
        var together = Judging.Beside(records);
        return records.Max(record => together.Assess(record).Assessment.Job.Disposition);
    }

    private static bool IsWork(TimelineEvent entry) =>
        entry.Kind is TimelineEventKind.WorkStarted or TimelineEventKind.WorkStopped;
}
