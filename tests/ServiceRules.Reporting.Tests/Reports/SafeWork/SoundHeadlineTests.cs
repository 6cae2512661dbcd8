using FsCheck.Xunit;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.SafeWork;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Reporting.Pdf;
using ServiceRules.Reporting.Reports;
using ServiceRules.Reporting.Reports.SafeWork;
using ServiceRules.Rules.Model;

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
        var job = SampleJobs.Judge(Changed(new(seed)));
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

    /// <summary>No page calls protected what a finding on it says was not, whoever's hands only the bench log tells among it.</summary>
    [Property(MaxTest = 150)]
    public void Minutes_WhereAFindingHasHandsUnprotected_AreNotCalledAllProtected(int seed)
    {
        var random = new Random(seed);
        var view = View(SampleJobs.Judge(WithHandsInTheLog(Changed(random), random)));
        var against = view
            .Found.Open.Where(one =>
                one.Finding is { Verdict: Verdict.NotMet, Reason: FindingReason.Unprotected }
                && one.Rule.Check is Check.Protection or Check.EnergyControl
            )
            .ToList();
        if (against.Count == 0 || view.Found.Exemption is not null)
        {
            return;
        }

        Assert.Contains(view.People, person => !IsCalledProtected(view, person));
        var logged =
            from unit in view.Job.Record.Units.Select((one, at) => (one.Entries, at))
            from entry in unit.Entries.Select((one, at) => (one, at))
            where against.Any(one => one.Finding.Evidence.Contains($"/units/{unit.at}/entries/{entry.at}"))
            select entry.one;
        Assert.All(
            from entry in logged
            from person in view.People
            where entry.By is null || entry.By == person.Id
            select person,
            person => Assert.False(IsCalledProtected(view, person), HandsInLines.Line(view, person))
        );
    }

    private static bool IsCalledProtected(SafeWorkView view, ProtectedPerson person) =>
        HandsInLines.Line(view, person).Contains("all of it protected", StringComparison.Ordinal)
        || HandsInLines.Short(view, person) is "unprotected 0 min";

    /// <summary>Up to three entries of the bench log at the time of some event, by somebody or nobody, and mostly none of it read.</summary>
    private static ServiceRecord WithHandsInTheLog(ServiceRecord record, Random random)
    {
        var units = record.Units.ToList();
        for (var count = random.Next(4); count > 0 && units.Count > 0 && !record.Timeline.IsEmpty; count--)
        {
            var unit = random.Next(units.Count);
            var at = record.Timeline[random.Next(record.Timeline.Length)].At;
            var by =
                random.Next(2) == 0
                    ? (Id<Participant>?)null
                    : record.People[random.Next(record.People.Length)].Id;
            BenchEntry entry = random.Next(4) switch
            {
                0 => new PartFitted { Part = PartKind.Seal },
                1 => new Reading
                {
                    Quantity = MeasuredQuantity.BearingPlay,
                    Observed = new Observation.Seen(Condition.Sound),
                },
                2 => new Adjustment
                {
                    Adjuster = AdjusterKind.Height,
                    Side = Side.Left,
                    Amount = new AdjustmentAmount.NotStated(),
                },
                _ => new Adjustment
                {
                    Adjuster = AdjusterKind.Clearance,
                    Side = Side.Left,
                    Amount = new AdjustmentAmount.NotStated(),
                },
            };
            units[unit] = units[unit] with
            {
                Entries = [.. units[unit].Entries, entry with { At = at, By = by }],
            };
        }

        return record with
        {
            Units = [.. units],
        };
    }

    private static ServiceRecord Changed(Random random)
    {
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

        return record with
        {
            Place = random.Next(2) == 0 ? record.Place : WorkPlace.OnBench,
            Timeline = [.. entries],
        };
    }

    /// <summary>An adjuster turned in the run: in the line, in the heading over the table, and with its letter at that time.</summary>
    [Fact]
    public void Hands_OnlyInTheBenchLogWhileTheReelRan_AreToldWithTheirTimeAndLetter()
    {
        var record = SafeWorkSamples.Read("lap");
        var unit = record.Units[0];
        var turn = unit.Entries.OfType<Adjustment>().First();
        var run = record.Timeline.First(one => one.Kind == TimelineEventKind.TestEnergised);
        var view = View(
            SampleJobs.Judge(
                record with
                {
                    Units =
                    [
                        unit with
                        {
                            Entries = unit.Entries.Replace(
                                turn,
                                turn with
                                {
                                    At = SafeWorkSamples.Time("2026-04-13T08:33:00+01:00"),
                                }
                            ),
                        },
                    ],
                }
            )
        );
        var cause = view.Causes.Single(one =>
            one.Marked.Any(marked => marked.Told.Rule.Id.Text == "adjuster-untouched-while-running")
        );
        var person = Assert.Single(view.People);

        Assert.EndsWith(
            $"By the bench log hands at a unit at 08:33, not shown as protected ({cause.Marked[0].Letter}).",
            HandsInLines.Line(view, person),
            StringComparison.Ordinal
        );
        Assert.Contains(
            "by the bench log hands at a unit at 08:33",
            HandsInLines.Short(view, person),
            StringComparison.Ordinal
        );
        var last = view.Events[LetterPlace.Of(view, cause) - 1];
        Assert.True(string.CompareOrdinal(last.Event.At.Text, run.At.Text) >= 0, last.Event.At.Text);
        Assert.True(
            string.CompareOrdinal(last.Event.At.Text, "2026-04-13T08:33:00+01:00") <= 0,
            last.Event.At.Text
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
