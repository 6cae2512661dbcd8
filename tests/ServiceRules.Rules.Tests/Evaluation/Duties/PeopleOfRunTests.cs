using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;
using ServiceRules.Rules.Model;
using ServiceRules.Rules.Tests.Evaluation.Timeline;

namespace ServiceRules.Rules.Tests.Evaluation.Duties;

/// <summary>What is said of people before a run, held against the people whom the record shows in it.</summary>
public sealed class PeopleOfRunTests
{
    private const string Measures = "09:44 alternative_measures_recorded tech-01 measures=";
    private const string Unlocked =
        "09:47 lock_removed tech-01 source=engine_start lock=L-11\n09:48 lock_removed tech-01 source=hydraulic lock=L-12\n";
    private const string Started = "09:50 test_energised tech-01\n";
    private const string Done = "09:52 energised_task_performed tech-01 task=Lap\n";
    private const string Ended = "09:58 test_ended tech-01\n";

    private static readonly SafetyCase Crew = new SafetyCase() with
    {
        People =
        [
            SafetyCase.Person("tech-01"),
            SafetyCase.Person("tech-02", JobRole.Leads),
            SafetyCase.Person("op-01", JobRole.Affected),
        ],
        Register =
        [
            Registers.Trained("tech-01"),
            Registers.Trained("tech-02"),
            Registers.Trained("tech-03"),
            new(new("op-01"), Authorised: false, null, null),
        ],
    };

    [Theory]
    // Alone, with a second person that nobody is; named, and real.
    [InlineData("", Verdict.Unproven)]
    [InlineData(" others=tech-02", Verdict.Met)]
    [InlineData(" others=op-01", Verdict.Met)]
    // The one who works, somebody of no part in the record, and both with somebody real beside them.
    [InlineData(" others=tech-01", Verdict.NotMet)]
    [InlineData(" others=tech-03", Verdict.Unproven)]
    [InlineData(" others=nobody-9", Verdict.Unproven)]
    [InlineData(" others=tech-01,tech-02", Verdict.Met)]
    public void MeasuresFirst_SecondAtTheStop_IsSomebodyElseOfTheRecord(string others, Verdict expected) =>
        Assert.Equal(
            expected,
            Asking(ProtectiveMeasure.SecondPersonAtStopControl)
                .With(Job(Measures + "SecondPersonAtStopControl" + others + "\n" + Started + Done + Ended))
                .VerdictOf(EnergyDuty.EnergisedMeasuresFirst)
        );

    [Theory]
    [InlineData("09:53 reel_wedged tech-02", Verdict.NotMet)]
    [InlineData("09:53 area_inspected tech-02", Verdict.NotMet)]
    [InlineData("09:53 work_started tech-02\n09:54 work_stopped tech-02", Verdict.NotMet)]
    [InlineData("09:53 energised_task_performed tech-02 task=Lap", Verdict.NotMet)]
    [InlineData("09:30 work_started tech-02\n09:41 work_stopped tech-02", Verdict.Met)]
    [InlineData("09:57 machine_shut_down tech-02", Verdict.Met)]
    [InlineData("09:59 area_inspected tech-02", Verdict.Met)]
    // At the very instant of the start: which came first the record cannot tell.
    [InlineData("09:50 area_inspected tech-02", Verdict.Unproven)]
    public void MeasuresFirst_SecondAtTheStop_StaysThereAllThrough(string act, Verdict expected) =>
        Assert.Equal(
            expected,
            Asking(ProtectiveMeasure.SecondPersonAtStopControl)
                .With(
                    Job(
                        Measures + "SecondPersonAtStopControl others=tech-02\n" + Started + Done + Ended + act
                    )
                )
                .VerdictOf(EnergyDuty.EnergisedMeasuresFirst)
        );

    [Theory]
    [InlineData("2026-04-13T08:00:00+01:00", "2026-04-13T17:00:00+01:00", Verdict.Met)]
    [InlineData("2026-04-13T09:55:00+01:00", "2026-04-13T17:00:00+01:00", Verdict.Unproven)]
    public void MeasuresFirst_SecondAtTheStopByAttendance_IsOnTheSite(
        string from,
        string until,
        Verdict expected
    ) =>
        Assert.Equal(
            expected,
            (
                Asking(ProtectiveMeasure.SecondPersonAtStopControl) with
                {
                    Registered = context =>
                        context with
                        {
                            Attendance =
                            [
                                new(
                                    new("tech-02"),
                                    RecordedTime.Parse(from).OrThrow(),
                                    RecordedTime.Parse(until).OrThrow()
                                ),
                            ],
                        },
                }
            )
                .With(Job(Measures + "SecondPersonAtStopControl others=tech-02\n" + Started + Done + Ended))
                .VerdictOf(EnergyDuty.EnergisedMeasuresFirst)
        );

    /// <summary>Where guards keep people from what turns, a second person that is not shown is told and holds nothing.</summary>
    [Fact]
    public void MeasuresFirst_SecondNotAskedForAndNotShown_IsToldBesideTheGuards()
    {
        var outcome = Crew.With(Job(Measures + "SecondPersonAtStopControl,GuardsInPlace\n" + Started + Ended))
            .Duty(EnergyDuty.EnergisedMeasuresFirst);

        Assert.Equal(Verdict.Met, outcome.Verdict);
        Assert.Contains(
            "does not show who that was",
            Assert.Single(outcome.Notices),
            StringComparison.Ordinal
        );
    }

    [Theory]
    [InlineData(Started + Done + Ended, Verdict.Met)]
    // Another starts it, does the task, ends it, or turns up at the controls.
    [InlineData("09:50 test_energised tech-02\n" + Done + Ended, Verdict.NotMet)]
    [InlineData(Started + "09:52 energised_task_performed tech-02 task=Lap\n" + Ended, Verdict.NotMet)]
    [InlineData(Started + Done + "09:58 test_ended tech-02\n", Verdict.NotMet)]
    [InlineData(Started + Done + "09:55 drive_disengaged tech-02\n" + Ended, Verdict.NotMet)]
    [InlineData(Started + Done + Ended + "09:59 drive_disengaged tech-02\n", Verdict.Met)]
    public void MeasuresFirst_OneAloneAtTheControls_StartsAndWorks(string run, Verdict expected) =>
        Assert.Equal(
            expected,
            Asking(ProtectiveMeasure.SingleOperatorControl)
                .With(Job(Measures + "SingleOperatorControl\n" + run))
                .VerdictOf(EnergyDuty.EnergisedMeasuresFirst)
        );

    [Theory]
    // A test run: by whoever works; by another who says so of themselves; by another of whom it is said.
    [InlineData("tech-01", "tech-01", "SingleOperatorControl", Verdict.Met)]
    [InlineData("tech-02", "tech-02", "SingleOperatorControl", Verdict.Met)]
    [InlineData("tech-01", "tech-02", "SingleOperatorControl", Verdict.NotMet)]
    [InlineData("tech-01", "tech-02", "SingleOperatorControl,GuardsInPlace", Verdict.Unproven)]
    [InlineData("tech-01", "tech-02", "GuardsInPlace", Verdict.Met)]
    public void MeasuresFirst_OneAloneInATest_IsWhoeverWorks(
        string teller,
        string starter,
        string measures,
        Verdict expected
    ) =>
        Assert.Equal(
            expected,
            Crew.With(
                    Job(
                        $"09:44 alternative_measures_recorded {teller} measures={measures}\n09:50 test_energised {starter}\n09:58 test_ended {starter}\n"
                    )
                )
                .VerdictOf(EnergyDuty.EnergisedMeasuresFirst)
        );

    [Theory]
    [InlineData("", Verdict.Met)]
    [InlineData("09:53 area_inspected op-01", Verdict.NotMet)]
    [InlineData("09:53 area_inspected tech-01", Verdict.Met)]
    [InlineData("09:53 people_clear_checked tech-02", Verdict.Met)]
    [InlineData("09:59 area_inspected tech-02", Verdict.Met)]
    public void MeasuresFirst_EverybodyElseKeptOut_IsNobodyElseAtTheMachine(string act, Verdict expected) =>
        Assert.Equal(
            expected,
            Crew.With(Job(Measures + "ExclusionZone\n" + Started + Ended + act))
                .VerdictOf(EnergyDuty.EnergisedMeasuresFirst)
        );

    /// <summary>A turn at the unit that the bench log times and names, while everybody else is said to be kept out.</summary>
    [Theory]
    [InlineData("op-01", "09:53", Verdict.NotMet)]
    [InlineData("op-01", "10:10", Verdict.Met)]
    public void MeasuresFirst_EverybodyElseKeptOut_IsHeldAgainstTheBenchLog(
        string by,
        string at,
        Verdict expected
    ) => Assert.Equal(expected, (
                Crew with
                {
                    Units =
                    [
                        new()
                        {
                            Id = new("U-1"),
                            Sheet = new("sheet"),
                            Entries =
                            [
                                new Adjustment
                                {
                                    Adjuster = AdjusterKind.Height,
                                    Side = Side.Left,
                                    Amount = new AdjustmentAmount.NotStated(),
                                    At = RecordedTime.Parse($"2026-04-13T{at}:00+01:00").OrThrow(),
                                    By = new(by),
                                },
                            ],
                        },
                    ],
                }
            ).With(Job(Measures + "ExclusionZone\n" + Started + Ended)).VerdictOf(EnergyDuty.EnergisedMeasuresFirst));

    /// <summary>What was said before one run is not held against the people of the next, where that has its own.</summary>
    [Fact]
    public void MeasuresFirst_OwnMeasuresOfTheNextRun_StandInTheirPlace() =>
        Assert.Equal(
            Verdict.Met,
            Crew.With(
                    Job(
                        Measures
                            + "SingleOperatorControl\n"
                            + Started
                            + Ended
                            + "10:00 alternative_measures_recorded tech-02 measures=GuardsInPlace\n10:02 test_energised tech-02\n10:04 test_ended tech-01\n"
                    )
                )
                .VerdictOf(EnergyDuty.EnergisedMeasuresFirst)
        );

    [Theory]
    [InlineData("tech-01", Verdict.Met)]
    [InlineData("tech-02", Verdict.Met)]
    [InlineData("op-01", Verdict.Unproven)]
    [InlineData("nobody-9", Verdict.Unproven)]
    public void MeasuresFirst_Recorded_CountsFromPeopleShownAsAuthorised(string by, Verdict expected) =>
        Assert.Equal(
            expected,
            Crew.With(
                    Job(
                        $"09:44 alternative_measures_recorded {by} measures=GuardsInPlace\n" + Started + Ended
                    )
                )
                .VerdictOf(EnergyDuty.EnergisedMeasuresFirst)
        );

    /// <summary>Whoever ticked that ticked everything.</summary>
    [Fact]
    public void MeasuresFirst_EngineOffForARun_IsTold()
    {
        var outcome = Crew.With(Job(Measures + "GuardsInPlace,EngineOff\n" + Started + Ended))
            .Duty(EnergyDuty.EnergisedMeasuresFirst);

        Assert.Equal(Verdict.Met, outcome.Verdict);
        Assert.Contains(
            "the engine off is said at 09:44 by tech-01, which is said of a machine that stands still",
            Assert.Single(outcome.Notices),
            StringComparison.Ordinal
        );
    }

    [Theory]
    // Named at the stop; the only helper, with the measure; no measure; another named; hands shown.
    [InlineData(JobRole.Assists, "SecondPersonAtStopControl others=tech-02", "", false)]
    [InlineData(JobRole.Assists, "SecondPersonAtStopControl", "", false)]
    [InlineData(JobRole.Assists, "GuardsInPlace others=tech-02", "", true)]
    [InlineData(JobRole.Assists, "SecondPersonAtStopControl others=op-01", "", true)]
    [InlineData(
        JobRole.Assists,
        "SecondPersonAtStopControl others=tech-02",
        "08:30 work_started tech-02\n08:40 work_stopped tech-02",
        true
    )]
    [InlineData(JobRole.Performs, "SecondPersonAtStopControl others=tech-02", "", true)]
    public void HandsIn_HelperAtTheStop_AreNotThoseOfTheJob(
        JobRole role,
        string measures,
        string more,
        bool expected
    )
    {
        var job = (
            Crew with
            {
                People =
                [
                    SafetyCase.Person("tech-01"),
                    SafetyCase.Person("tech-02", role),
                    SafetyCase.Person("op-01", JobRole.Affected),
                ],
            }
        ).With(Job(Measures + measures + "\n" + Started + Ended + more));

        var reading = TimelineReading.Of(job.Frame());

        Assert.Equal(expected, reading.HandsIn.Contains(new("tech-02")));
        Assert.Equal(!expected, reading.AtTheStop.Contains(new("tech-02")));
    }

    [Theory]
    [InlineData("tech-02 at the stop of the tractor", true)]
    [InlineData("tech-021 at the stop", false)]
    [InlineData("tech-02 was not at the stop", false)]
    [InlineData("tech-02 had left", false)]
    public void StopHeld_WordsOfHow_NameSomebodyOfTheRecord(string words, bool expected)
    {
        var job = Crew.With(Measures + "SecondPersonAtStopControl");
        var record = job.Frame().Record;

        Assert.Equal(
            expected,
            StopHeld.Named(record, record.Timeline[0] with { Method = words }).Contains(new("tech-02"))
        );
    }

    [Theory]
    // A reading by hand follows in the log, none does, a time says it was after the run; hands in again after it.
    [InlineData("turn, read", "", Verdict.Met)]
    [InlineData("turn", "", Verdict.Unproven)]
    [InlineData("turn, look", "", Verdict.Unproven)]
    [InlineData("turn, read 09:30", "", Verdict.Met)]
    [InlineData("turn, read 10:05", "", Verdict.Unproven)]
    [InlineData("look 10:05, turn, read 09:30", "", Verdict.Unproven)]
    [InlineData("look 10:05, turn, read", "", Verdict.Unproven)]
    [InlineData("turn, read", "10:20 work_started tech-01\n10:40 work_stopped tech-01", Verdict.Unproven)]
    public void Adjuster_LastTestAndTurnsWithoutTime_ByTheOrderOfTheLog(
        string log,
        string more,
        Verdict expected
    ) =>
        Assert.Equal(
            expected,
            (Crew with { Units = [Log(log)] })
                .With(Job(Measures + "GuardsInPlace\n" + Unlocked + Started + Ended + more))
                .VerdictOf(EnergyDuty.AdjusterUntouchedWhileRunning)
        );

    /// <summary>On a job that goes on the times are asked for while somebody knows them.</summary>
    [Theory]
    [InlineData("turn", Measures + "GuardsInPlace", FindingReason.InProgress)]
    [InlineData("turn, read", Measures + "GuardsInPlace", FindingReason.None)]
    [InlineData("turn", "", FindingReason.None)]
    public void MeasuresFirst_RunStillToCome_TimesOfTurnsAreAskedForBeforeIt(
        string log,
        string measures,
        FindingReason expected
    ) =>
        Assert.Equal(
            expected,
            (Crew with { Units = [Log(log)], IsSignedOff = false })
                .With(Job(measures))
                .Duty(EnergyDuty.EnergisedMeasuresFirst)
                .Reason
        );

    private static string Job(string run) => MakeSafe.Isolation + MakeSafe.Work + run;

    private static SafetyCase Asking(ProtectiveMeasure measure) =>
        Crew with
        {
            Recorded = record => record with { Tasks = [ServiceTask.Lap] },
            Procedure = SafetyCase.RideOn with
            {
                EnergisedTasks = [new(ServiceTask.Lap, new("lead-01"), [measure], "all locked", null, null)],
            },
        };

    private static UnitWork Log(string log) =>
        new()
        {
            Id = new("U-1"),
            Sheet = new("sheet"),
            Entries = [.. log.Split(", ").Select(line => Entry(line.Split(' ')))],
        };

    private static BenchEntry Entry(string[] line)
    {
        var at = line.Length > 1 ? RecordedTime.Parse($"2026-04-13T{line[1]}:00+01:00").OrThrow() : null;
        return line[0] == "turn"
            ? new Adjustment
            {
                Adjuster = AdjusterKind.Height,
                Side = Side.Left,
                Amount = new AdjustmentAmount.NotStated(),
                At = at,
            }
            : new Reading
            {
                Quantity = MeasuredQuantity.Clearance,
                Observed =
                    line[0] == "look"
                        ? new Observation.Seen(Condition.Sound)
                        : new Observation.Paper(PaperResult.Cuts),
                At = at,
            };
    }
}
