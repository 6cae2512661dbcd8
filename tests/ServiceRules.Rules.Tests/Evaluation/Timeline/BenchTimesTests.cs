using System.Globalization;
using ServiceRules.Domain;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
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

    /// <summary>A run is a run however it was begun: its task stands in the start, or is entered in it.</summary>
    [Theory]
    [InlineData("test_energised tech-01 task=grind", "", Verdict.Met)]
    [InlineData("test_energised tech-01", "09:52 energised_task_performed tech-01\n", Verdict.Met)]
    [InlineData("test_energised tech-01", "", Verdict.Unproven)]
    [InlineData("machine_started tech-01 task=grind", "", Verdict.Met)]
    [InlineData("machine_started tech-01", "09:52 energised_task_performed tech-01\n", Verdict.Met)]
    [InlineData("machine_started tech-01", "10:02 energised_task_performed tech-01\n", Verdict.Unproven)]
    [InlineData("machine_started tech-01", "", Verdict.Unproven)]
    public void Evaluate_DoneInARun_NeedsItsTask(string start, string task, Verdict expected)
    {
        BenchEntry[] done =
        [
            Ground("09:55", GrindingKind.ReelSpin)[0],
            new Adjustment
            {
                Adjuster = AdjusterKind.Clearance,
                Side = Side.Left,
                Amount = new AdjustmentAmount.NotStated(),
            },
            Read(1)[0] with
            {
                Quantity = MeasuredQuantity.Clearance,
                Observed = new Observation.Contact(default),
            },
        ];

        foreach (var entry in done)
        {
            foreach (var (at, verdict) in new[] { ("09:55", expected), ("10:05", Verdict.Unproven) })
            {
                var timed = entry with { At = RecordedTime.Parse($"2026-04-13T{at}:00+01:00").OrThrow() };
                var outcome = Judge(
                    [timed],
                    $"{MakeSafe.Isolation}{MakeSafe.Work}09:47 lock_removed tech-01 source=engine_start lock=L-11\n"
                        + $"09:48 isolator_operated tech-01 source=engine_start position=on\n09:50 {start}\n{task}09:58 machine_shut_down tech-01"
                );

                Assert.Equal(verdict, outcome.Verdict);
            }
        }
    }

    // Of a gauge held to a unit there is no hearing.
    [Fact]
    public void Evaluate_GaugeHeldInARunForATask_IsOutsideTheWork() =>
        Assert.Equal(
            Verdict.Unproven,
            Judge(
                [Read(1)[0] with { At = RecordedTime.Parse("2026-04-13T09:55:00+01:00").OrThrow() }],
                MakeSafe.Isolation + MakeSafe.Work + Task
            ).Verdict
        );

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

    private const string AllDay = "08:00:05 work_started tech-01\n16:00:05 work_stopped tech-01";

    /// <summary>Readings in a row take three seconds each, the first of them not counted.</summary>
    [Theory]
    [InlineData(1, 3, Verdict.Unproven)]
    [InlineData(1, 2, Verdict.Met)]
    [InlineData(0, 6, Verdict.Unproven)]
    [InlineData(3, 6, Verdict.Met)]
    [InlineData(20, 6, Verdict.Met)]
    public void Evaluate_TimedReadings_TakeTimeInARow(int apart, int readings, Verdict expected) =>
        Assert.Equal(expected, Judge(Timed("09:00:01", apart, readings), AllDay).Verdict);

    [Fact]
    public void Evaluate_TimedInARow_TellsHowManyInHowLong()
    {
        var outcome = Judge(
            [.. Timed("08:30:00", 60, 2), .. Timed("09:00:01", 1, 4), .. Timed("09:30:00", 60, 2)],
            AllDay
        );

        Assert.Equal(
            "4 readings by hand are timed within 3 seconds from 2026-04-13T09:00:01+01:00, which take 9 seconds at the least.",
            outcome.Statement
        );
        Assert.Equal<string>(["/units/0/entries/2", "/units/0/entries/5"], outcome.Evidence);
    }

    /// <summary>Of one minute each may be of its first second or its last; one that says seconds tells that they are noted.</summary>
    [Theory]
    [InlineData(20, false, Verdict.Met)]
    [InlineData(22, false, Verdict.Unproven)]
    [InlineData(6, true, Verdict.Unproven)]
    public void Evaluate_TimedToTheMinute_AreGivenAMinute(
        int readings,
        bool andOneSecond,
        Verdict expected
    ) =>
        Assert.Equal(
            expected,
            Judge(
                [.. Timed("09:00:00", 0, readings), .. andOneSecond ? Timed("09:00:01", 0, 1) : []],
                AllDay
            ).Verdict
        );

    [Theory]
    [InlineData("tech-01", "tech-02", Verdict.Met)]
    [InlineData("tech-01", "tech-01", Verdict.Unproven)]
    [InlineData(null, null, Verdict.Unproven)]
    public void Evaluate_TimedByTwo_AreEachHeldToTheirOwn(string? one, string? other, Verdict expected) =>
        Assert.Equal(
            expected,
            Judge(
                [
                    .. Timed("09:00:01", 4, 3)
                        .Zip(
                            Timed("09:00:02", 4, 3),
                            (first, second) => new[] { By(first, one), By(second, other) }
                        )
                        .SelectMany(both => both),
                ],
                one is null
                    ? AllDay
                    : AllDay + "\n08:00:05 work_started tech-02\n16:00:05 work_stopped tech-02",
                people: one is null ? 1 : 2
            ).Verdict
        );

    /// <summary>Entered together at one moment, and labelled so: honest.</summary>
    [Theory]
    [InlineData("08:00:05 work_started tech-01\n16:00:05 work_stopped tech-01 mark=late-entry", Verdict.Met)]
    [InlineData(
        "08:00:05 work_started tech-01 mark=transcription\n16:00:05 work_stopped tech-01",
        Verdict.Met
    )]
    [InlineData("07:00:05 seen_at_rest tech-01 mark=late-entry\n" + AllDay, Verdict.Unproven)]
    [InlineData("07:00:05 seen_at_rest tech-01 mark=late-entry", Verdict.Met)]
    [InlineData("07:00:05 seen_at_rest tech-01", Verdict.Unproven)]
    [InlineData("", Verdict.Unproven)]
    public void Evaluate_TimedTogetherAndLabelled_IsHonest(string timeline, Verdict expected) =>
        Assert.Equal(expected, Judge(Timed("09:00:01", 0, 6), timeline).Verdict);

    /// <summary>Where nothing can be switched on, readings take no less time.</summary>
    [Theory]
    [InlineData("08:20:00 work_started tech-01\n08:20:10 work_stopped tech-01", Verdict.Unproven)]
    [InlineData("08:20:00 work_started tech-01\n08:20:18 work_stopped tech-01", Verdict.Met)]
    [InlineData("08:20:00 work_started tech-01\n08:20:10 work_stopped tech-01 mark=late-entry", Verdict.Met)]
    [InlineData("", Verdict.Met)]
    public void Evaluate_ReadingsOfAUnitOnTheBench_TakeTimeThere(string timeline, Verdict expected) =>
        Assert.Equal(expected, Judge(Read(6), timeline, Bench).Verdict);

    [Theory]
    [InlineData(1, Verdict.Unproven)]
    [InlineData(5, Verdict.Met)]
    public void Evaluate_TimedReadingsOnTheBench_TakeTimeInARow(int apart, Verdict expected) =>
        Assert.Equal(expected, Judge(Timed("09:00:01", apart, 6), AllDay, Bench).Verdict);

    private static Procedure Bench { get; } =
        new()
        {
            Id = new("P-bench"),
            Title = "unit on the bench",
            Machines = [new("M-1")],
            Place = WorkPlace.OnBench,
            Controls = new(Key: false, ParkingBrake: false, LoweringUnits: false, ReelDrive: false),
            Sources = [SafetyCase.Source("gravity", "raised unit", stored: true)],
        };

    private static Reading By(Reading reading, string? person) =>
        reading with
        {
            By = person is null ? null : new Id<Participant>(person),
        };

    private static Reading[] Timed(string from, int apart, int count) =>
        [
            .. Read(count)
                .Select(
                    (reading, index) =>
                        reading with
                        {
                            At = RecordedTime
                                .Parse(
                                    $"2026-04-13T{TimeOnly.Parse(from, CultureInfo.InvariantCulture).Add(TimeSpan.FromSeconds(apart * index)):HH:mm:ss}+01:00"
                                )
                                .OrThrow(),
                        }
                ),
        ];

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

    private static CheckOutcome Judge(
        BenchEntry[] entries,
        string timeline,
        Procedure? procedure = null,
        int people = 1
    ) => (
            new SafetyCase
            {
                Procedure = procedure ?? SafetyCase.RideOn,
                People =
                [
                    .. new[] { SafetyCase.Person("tech-01"), SafetyCase.Person("tech-02") }.Take(people),
                ],
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
