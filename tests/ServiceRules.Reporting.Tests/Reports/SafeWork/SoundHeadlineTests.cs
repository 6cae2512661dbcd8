using FsCheck.Xunit;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.SafeWork;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;
using ServiceRules.Reporting.Pdf;
using ServiceRules.Reporting.Reports;
using ServiceRules.Reporting.Reports.SafeWork;

namespace ServiceRules.Reporting.Tests.Reports.SafeWork;

/// <summary>A headline never says more than the table under it.</summary>
public sealed class SoundHeadlineTests
{
    private static readonly string[] Samples =
    [
        "height-check",
        "height-check-by-two",
        "lap",
        "touch-up",
        "clear-blockage",
        "grinder-125",
        "bench-height-check",
    ];

    private static SafeWorkView View(Assessed job) =>
        new(new JobView(job, ReportTerms.Default, FontMeasure.Shipped, SampleReport.IssuedAt));

    /// <summary>Entries left out, told twice at other times, and the place called otherwise.</summary>
    [Property(MaxTest = 150)]
    public void Headline_Sound_HasNoUnprotectedMinutesUnderIt(int seed)
    {
        var random = new Random(seed);
        var record = SafeWorkSamples.Read(Samples[random.Next(Samples.Length)]);
        var entries = record.Timeline.ToList();
        for (var change = random.Next(4); change > 0; change--)
        {
            var at = random.Next(entries.Count);
            if (random.Next(3) == 0)
            {
                entries.Add(entries[at] with { At = entries[random.Next(entries.Count)].At });
            }
            else
            {
                entries.RemoveAt(at);
            }
        }

        var job = SampleJobs.Judge(
            record with
            {
                Place = random.Next(2) == 0 ? record.Place : WorkPlace.OnBench,
                Timeline = [.. entries],
            }
        );
        var view = View(job);
        if (view.Found.Standing != SafeWorkStanding.Shown || !view.Frame.HasIsolation)
        {
            return;
        }

        Assert.All(
            view.People,
            person =>
            {
                Assert.NotNull(person.Unprotected);
                Assert.Empty(person.Unprotected.Intervals);
            }
        );
    }

    [Fact]
    public void Headline_OfAWholeMachineCalledOnTheBenchAndNotLockedOut_IsNotSound()
    {
        var job = SampleJobs.Judge(
            SafeWorkSamples.Without(SafeWorkSamples.ByTwo, one => one.Lock is not null) with
            {
                Place = WorkPlace.OnBench,
            }
        );

        Assert.Equal(SafeWorkStanding.NotShown, SafeWorkFindings.Of(job).Standing);
    }

    [Fact]
    public void Headline_OfTheMachineStartedWithHandsInAUnitOnTheBench_IsNotSound()
    {
        var record = SafeWorkSamples.Read("bench-height-check");
        var job = SampleJobs.Judge(
            record with
            {
                Timeline =
                [
                    .. record.Timeline,
                    new()
                    {
                        Kind = TimelineEventKind.MachineStarted,
                        At = SafeWorkSamples.Time("2026-04-13T13:20:00+01:00"),
                        Actor = new("tech-02"),
                    },
                ],
            }
        );

        Assert.Equal(SafeWorkStanding.NotShown, SafeWorkFindings.Of(job).Standing);
        Assert.Equal(SafeWorkStanding.Shown, SafeWorkFindings.Of(SampleJobs.Judge(record)).Standing);
    }

    /// <summary>What is not asked on the bench is told as not asked, beside the minutes.</summary>
    [Fact]
    public void Table_OfABenchWithASourceThatNobodyLetGo_SaysThatIsolationIsNotAskedHere()
    {
        var view = View(
            SampleJobs.Judge(
                SafeWorkSamples.Without(
                    SafeWorkSamples.Read("bench-height-check"),
                    one => one.Kind == TimelineEventKind.ReelWedged
                )
            )
        );

        Assert.Contains(
            view.People,
            person =>
                HandsInLines
                    .Short(view, person)
                    .Contains("isolation not asked here", StringComparison.Ordinal)
        );
    }
}
