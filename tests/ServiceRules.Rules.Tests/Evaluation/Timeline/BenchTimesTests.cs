using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Tests.Evaluation.Timeline;

/// <summary>What the times of a bench log cannot be: metal off a reel that stands, readings in no time.</summary>
public sealed class BenchTimesTests
{
    private const string Run = """
        09:47 lock_removed tech-01 source=engine_start lock=L-11
        09:48 isolator_operated tech-01 source=engine_start position=on
        09:50 test_energised tech-01
        09:58 test_ended tech-01

        """;

    [Theory]
    [InlineData("09:00", GrindingKind.Lapping, Verdict.Unproven)]
    [InlineData("08:20", GrindingKind.Lapping, Verdict.Unproven)]
    [InlineData("09:55", GrindingKind.Lapping, Verdict.Met)]
    [InlineData("09:50", GrindingKind.Lapping, Verdict.Met)]
    // The reel stands on the grinder while the machine that it came from is locked.
    [InlineData("09:00", GrindingKind.ReelSpin, Verdict.Met)]
    public void Evaluate_MetalTakenOff_OnlyOfAReelThatTurns(string at, GrindingKind kind, Verdict expected) =>
        Assert.Equal(expected, Judge(Ground(at, kind), MakeSafe.Isolation + MakeSafe.Work + Task).Verdict);

    [Fact]
    public void Evaluate_LappedWhileLocked_TellsWhatIsOff()
    {
        var outcome = Judge(Ground("09:00", GrindingKind.Lapping), MakeSafe.Isolation + MakeSafe.Work + Task);

        Assert.Equal(
            "The lapping of U-1 is timed at 2026-04-13T09:00:00+01:00, while engine start is off: it is done on a reel that turns, so the time or that is not so.",
            outcome.Statement
        );
        Assert.Equal<string>(["/units/0/entries/0"], outcome.Evidence);
    }

    [Fact]
    public void Evaluate_LappedWithHandsInAndNoRunThen_IsUnproven()
    {
        var outcome = Judge(Ground("09:00", GrindingKind.Lapping), MakeSafe.Work + Task);

        Assert.Equal(Verdict.Unproven, outcome.Verdict);
        Assert.Contains("no run of the reel shown", outcome.Statement, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("08:20:10", 6, Verdict.Unproven)]
    [InlineData("08:20:17", 6, Verdict.Unproven)]
    [InlineData("08:20:18", 6, Verdict.Met)]
    [InlineData("08:20:00", 2, Verdict.Met)]
    [InlineData("08:20:00", 3, Verdict.Unproven)]
    public void Evaluate_ReadingsByHand_TakeTimeAtTheUnit(string stopped, int readings, Verdict expected) =>
        Assert.Equal(
            expected,
            Judge(
                Read(readings),
                $"08:10:20 isolator_operated tech-01 source=engine_start\n08:20:00 work_started tech-01\n{stopped} work_stopped tech-01"
            ).Verdict
        );

    [Fact]
    public void Evaluate_OnlyMinutesNoted_AWholeMinuteIsGiven() =>
        Assert.Equal(
            Verdict.Met,
            Judge(Read(6), "08:20 work_started tech-01\n08:20 work_stopped tech-01").Verdict
        );

    [Fact]
    public void Evaluate_TwoAtWork_HaveTwiceTheTime() =>
        Assert.Equal(
            Verdict.Met,
            Judge(
                Read(6),
                "08:20:05 work_started tech-01\n08:20:05 work_started tech-02\n08:20:14 work_stopped tech-01\n08:20:14 work_stopped tech-02"
            ).Verdict
        );

    [Fact]
    public void Evaluate_OnlyLookedAt_TakesNoTime() =>
        Assert.Equal(
            Verdict.Met,
            Judge(
                [.. Read(6).Select(reading => reading with { Observed = new Observation.Seen(default) })],
                "08:20:05 work_started tech-01\n08:20:06 work_stopped tech-01"
            ).Verdict
        );

    private const string Task = Run + "09:52 energised_task_performed tech-01\n";

    private static Grinding[] Ground(string at, GrindingKind kind) =>
        [new() { Kind = kind, At = RecordedTime.Parse($"2026-04-13T{at}:00+01:00").OrThrow() }];

    private static Reading[] Read(int count) =>
        [
            .. Enumerable.Repeat(
                new Reading
                {
                    Quantity = MeasuredQuantity.HeightOfCut,
                    Observed = new Observation.Measured(PrintedLength.Parse("3.20 mm").OrThrow()),
                },
                count
            ),
        ];

    private static CheckOutcome Judge(BenchEntry[] entries, string timeline) => (
            new SafetyCase
            {
                Units =
                [
                    new()
                    {
                        Id = new("U-1"),
                        Sheet = new("sheet"),
                        Entries = [.. entries],
                    },
                ],
            }
        ).With(timeline).Judge(new Check.Credibility(CredibilityOf.EntryTimes));
}
