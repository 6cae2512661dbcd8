using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Model;
using ServiceRules.Rules.Tests.Evaluation.Duties;

namespace ServiceRules.Rules.Tests.Evaluation.Timeline;

/// <summary>Hands at a unit by nothing but the time of a bench entry: read, tried, fitted.</summary>
public sealed class HandsByTheLogTests
{
    private static readonly Check Protection = new Check.Protection();

    public static TheoryData<string> ByHand =>
        ["feeler", "paper", "contact", "height", "diameter", "part", "play"];

    [Theory]
    [MemberData(nameof(ByHand))]
    public void Protection_HandsAtTheUnitWhileTheMachineRuns_IsNotMet(string what)
    {
        var outcome = Logged(Entry(what), "09:54").Judge(Protection);

        Assert.Equal((Verdict.NotMet, FindingReason.Unprotected), (outcome.Verdict, outcome.Reason));
        Assert.Contains("while the machine ran", outcome.Statement, StringComparison.Ordinal);
        Assert.Contains("/units/0/entries/0", outcome.Evidence);
    }

    // Before anything was off; locked and not yet proven; proven; at work; after it and still locked; unlocked.
    [Theory]
    [InlineData("08:02", Verdict.NotMet)]
    [InlineData("08:12", Verdict.Unproven)]
    [InlineData("08:19", Verdict.Met)]
    [InlineData("09:00", Verdict.Met)]
    [InlineData("09:42", Verdict.Met)]
    [InlineData("09:49", Verdict.NotMet)]
    public void Protection_FeelerTried_IsHeldAgainstTheLocksOfThatTime(string at, Verdict verdict)
    {
        Assert.Equal(verdict, Logged(Entry("feeler"), at).Judge(Protection).Verdict);
    }

    [Fact]
    public void Protection_ManyFeelersOfOneMinute_AreToldOnceWithAllOfThem()
    {
        var outcome = Logged(Entry("feeler"), "09:54", "09:54", "09:54").Judge(Protection);

        Assert.Empty(outcome.Notices);
        Assert.Equal(
            ["/units/0/entries/0", "/units/0/entries/1", "/units/0/entries/2"],
            outcome.Evidence.Where(pointer => pointer.StartsWith("/units", StringComparison.Ordinal))
        );
    }

    [Fact]
    public void Protection_ReadAtATimeAgainstTheLog_IsUnproven()
    {
        var outcome = Logged(Entry("feeler"), "09:00", "08:02").Judge(Protection);

        Assert.Equal((Verdict.Unproven, FindingReason.NotCredible), (outcome.Verdict, outcome.Reason));
    }

    [Fact]
    public void Protection_ReadWithoutATime_IsHandsOfWhoeverReadIt_AndALookIsNot()
    {
        var job = Logged(Entry("feeler") with { By = new("op-01") });

        Assert.Equal(Verdict.NotMet, job.Judge(Protection).Verdict);
        Assert.Equal(Verdict.Met, Logged(Entry("feeler")).Judge(Protection).Verdict);
        Assert.Equal(Verdict.Met, Logged(Entry("seen"), "09:54").Judge(Protection).Verdict);
    }

    [Theory]
    [InlineData("feeler", Verdict.NotMet)]
    [InlineData("part", Verdict.NotMet)]
    [InlineData("play", Verdict.NotMet)]
    // A turning reel is listened to.
    [InlineData("contact", Verdict.Met)]
    public void Protection_ReadDuringATestRun_IsNotMetUnlessItCanBeHeard(string what, Verdict verdict)
    {
        var job = Logged(Entry(what), "09:49:30") with
        {
            Entries = new SafetyCase()
                .With(
                    MakeSafe.Seat
                        + MakeSafe.Isolation
                        + MakeSafe.Work
                        + MakeSafe
                            .After.Replace(
                                "09:50 removal",
                                "09:49 test_energised tech-01\n09:50 removal",
                                StringComparison.Ordinal
                            )
                            .Replace(
                                "09:53 machine",
                                "09:51 test_ended tech-01\n09:53 machine",
                                StringComparison.Ordinal
                            )
                )
                .Entries,
        };

        Assert.Equal(verdict, job.Judge(Protection).Verdict);
    }

    /// <summary>What is heard, and turned by a control of the task, in a run however that was begun; what is held to the unit never.</summary>
    [Theory]
    [InlineData("contact", "machine_started tech-01 task=lap", "09:49:30", Verdict.Met)]
    [InlineData("turned", "machine_started tech-01 task=lap", "09:49:30", Verdict.Met)]
    [InlineData("feeler", "machine_started tech-01 task=lap", "09:49:30", Verdict.NotMet)]
    [InlineData("part", "machine_started tech-01 task=lap", "09:49:30", Verdict.NotMet)]
    // No task: nothing that the hand at an adjuster is held against.
    [InlineData("contact", "machine_started tech-01", "09:49:30", Verdict.NotMet)]
    [InlineData("turned", "machine_started tech-01", "09:49:30", Verdict.NotMet)]
    // In the very minute of the start nothing says that it was of the run.
    [InlineData("turned", "machine_started tech-01 task=lap", "09:49", Verdict.NotMet)]
    public void Protection_InARunBegunByAStart_IsHeldAgainstItsTask(
        string what,
        string start,
        string at,
        Verdict verdict
    )
    {
        var job = Logged(Entry(what), at) with
        {
            Entries = new SafetyCase()
                .With(
                    MakeSafe.Seat
                        + MakeSafe.Isolation
                        + MakeSafe.Work
                        + "09:47 lock_removed tech-01 source=engine_start lock=L-11\n"
                        + $"09:48 lock_removed tech-01 source=hydraulic lock=L-12\n09:49 {start}\n09:51 machine_shut_down tech-01"
                )
                .Entries,
        };

        Assert.Equal(verdict, job.Judge(Protection).Verdict);
    }

    [Fact]
    public void Protection_RunWhoseTaskIsEnteredInIt_IsARunForIt()
    {
        var job = Logged(Entry("contact"), "09:49:30") with
        {
            Entries = new SafetyCase()
                .With(
                    MakeSafe.Seat
                        + MakeSafe.Isolation
                        + MakeSafe.Work
                        + "09:47 lock_removed tech-01 source=engine_start lock=L-11\n09:48 lock_removed tech-01 source=hydraulic lock=L-12\n"
                        + "09:49 machine_started tech-01\n09:50 energised_task_performed tech-01\n09:51 machine_shut_down tech-01"
                )
                .Entries,
        };

        Assert.Equal(Verdict.Met, job.Judge(Protection).Verdict);
    }

    [Fact]
    public void Protection_ReadOnTheBench_IsNoHandsInTheMachine()
    {
        var bench = Logged(Entry("height") with { By = new("tech-02") }, "09:54") with
        {
            Procedure = SafetyCase.RideOn with
            {
                Place = WorkPlace.OnBench,
                Controls = new(false, false, false, false),
                Sources = [SafetyCase.Source("gravity", "raised unit", stored: true)],
            },
            Entries = new SafetyCase().With("08:10 unit_supported tech-01\n" + MakeSafe.Work).Entries,
        };

        Assert.Equal(Verdict.Met, bench.Judge(Protection).Verdict);
    }

    /// <summary>Whoever reads has had hands in, whatever part of the job the record gives them.</summary>
    [Fact]
    public void HandsIn_ReadByAnAffectedPerson_IsAskedWhatEverybodyWithHandsInIs()
    {
        var job = Logged(Entry("feeler") with { By = new("op-01") }, "09:00") with
        {
            People = [SafetyCase.Person("tech-01"), SafetyCase.Person("op-01", JobRole.Affected)],
            Register = [Registered("tech-01", isAuthorised: true), Registered("op-01", isAuthorised: false)],
        };

        Assert.Equal(Verdict.NotMet, job.VerdictOf(EnergyDuty.WorkByAuthorised));
        Assert.Equal(Verdict.NotMet, job.VerdictOf(EnergyDuty.OwnDeviceInGroup));
        Assert.Equal(Verdict.NotMet, job.VerdictOf(EnergyDuty.OwnDeviceThroughWork));
        var outcome = job.Duty(EnergyDuty.OwnDeviceInGroup);
        Assert.Contains("op-01", outcome.Statement, StringComparison.Ordinal);
        Assert.Contains("/units/0/entries/0", outcome.Evidence);
    }

    [Fact]
    public void HandsIn_ReadByWhoeverDoesTheWork_MakesNoGroup()
    {
        var job = Logged(Entry("feeler") with { By = new("tech-01") }, "09:00") with
        {
            Register = [Registered("tech-01", isAuthorised: true)],
        };

        Assert.Equal(Verdict.Met, job.VerdictOf(EnergyDuty.WorkByAuthorised));
        Assert.Equal(Verdict.NotApplicable, job.VerdictOf(EnergyDuty.OwnDeviceInGroup));
        Assert.Equal(Verdict.Met, job.VerdictOf(EnergyDuty.OwnDeviceThroughWork));
    }

    private static RegisteredPerson Registered(string id, bool isAuthorised) =>
        new(new(id), isAuthorised, new(2026, 1, 12), null, MayRelease: false);

    private static BenchEntry Entry(string what) =>
        what switch
        {
            "turned" => new Adjustment
            {
                Adjuster = AdjusterKind.Clearance,
                Side = Side.Left,
                Amount = new AdjustmentAmount.NotStated(),
            },
            "part" => new PartFitted { Part = default },
            "height" => Read(MeasuredQuantity.HeightOfCut, new Observation.Measured(Print("3.20 mm"))),
            "diameter" => Read(MeasuredQuantity.ReelDiameter, new Observation.Measured(Print("120.0 mm"))),
            "paper" => Read(MeasuredQuantity.Edge, new Observation.Paper(default)),
            "contact" => Read(MeasuredQuantity.Clearance, new Observation.Contact(default)),
            "play" => Read(MeasuredQuantity.BearingPlay, new Observation.Seen(default)),
            "seen" => Read(MeasuredQuantity.Guards, new Observation.Seen(default)),
            _ => Read(
                MeasuredQuantity.Clearance,
                new Observation.FeelerTest([Print("0.05 mm")], Passes: true)
            ),
        };

    private static Reading Read(MeasuredQuantity quantity, Observation observed) =>
        new() { Quantity = quantity, Observed = observed };

    private static PrintedLength Print(string text) => PrintedLength.Parse(text).OrThrow();

    private static SafetyCase Logged(BenchEntry entry, params string[] times) =>
        new SafetyCase() with
        {
            Entries = MakeSafe.Complete.Entries,
            Units =
            [
                new()
                {
                    Id = new("U-1"),
                    Sheet = new("sheet"),
                    Entries =
                        times.Length == 0 ? [entry] : [.. times.Select(at => entry with { At = Time(at) })],
                },
            ],
        };

    private static RecordedTime Time(string at) =>
        RecordedTime.Parse($"2026-04-13T{(at.Length == 5 ? at + ":00" : at)}+01:00").OrThrow();
}
