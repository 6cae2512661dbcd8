using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;
using ServiceRules.Rules.Model;
using ServiceRules.Rules.Tests.Evaluation.Timeline;

namespace ServiceRules.Rules.Tests.Evaluation.Duties;

/// <summary>What was done before hands went in, and no longer held when they did.</summary>
public sealed class StateAtWorkTests
{
    private static readonly SafetyCase One = new()
    {
        Procedure = SafetyCase.RideOn with
        {
            Sources = [SafetyCase.Source("engine_start", "engine start", "battery disconnect", true)],
        },
        Register = [Registers.Trained("tech-01")],
    };

    private static readonly SafetyCase Two = One with
    {
        Procedure = SafetyCase.RideOn with
        {
            Sources =
            [
                SafetyCase.Source("engine_start", "engine start", "battery disconnect", true),
                SafetyCase.Source("hydraulic", "hydraulic pressure", "valve", true),
            ],
        },
    };

    private static readonly SafetyCase Cord = One with
    {
        Procedure = SafetyCase.RideOn with
        {
            Sources = [SafetyCase.Source("mains_cord", "mains cord", "plug")],
        },
    };

    [Theory]
    [InlineData(
        "08:05 isolator_operated tech-01 source=engine_start position=on",
        EnergyDuty.SourcesIsolated,
        "turned on again at 08:05"
    )]
    [InlineData(
        "08:05 source_added tech-01 source=engine_start\n08:02 lock_removed tech-01 source=engine_start lock=L-1",
        EnergyDuty.SourcesIsolated,
        "plugged in again at 08:05"
    )]
    [InlineData(
        "08:05 lock_removed tech-01 source=engine_start lock=L-1",
        EnergyDuty.DeviceOnEachIsolator,
        "off again at 08:05"
    )]
    [InlineData(
        "08:05 lock_removed tech-01 source=engine_start lock=L-1\n08:06 lock_applied tech-01 source=engine_start lock=L-1",
        EnergyDuty.IsolationVerified,
        "before the lock taken off at 08:05"
    )]
    public void Judge_UndoneBeforeHandsWentIn_IsNotMet(string undone, EnergyDuty of, string told)
    {
        const string timeline = """
            08:00 isolator_operated tech-01 source=engine_start position=off
            08:01 lock_applied tech-01 source=engine_start lock=L-1
            08:03 isolation_verified tech-01 source=all
            08:15 work_started tech-01
            08:40 work_stopped tech-01

            """;

        var outcome = One.With(timeline + undone).Duty(of);

        Assert.Equal(Verdict.Met, One.With(timeline).VerdictOf(of));
        Assert.Equal(Verdict.NotMet, outcome.Verdict);
        Assert.Contains(told, outcome.Statement, StringComparison.Ordinal);
    }

    [Fact]
    public void DeviceHoldsOff_IsolatorTurnedOnBeforeASilentLock_IsNotMet()
    {
        var outcome = One.With(
                """
                08:01 isolator_operated tech-01 source=engine_start position=off
                08:05 isolator_operated tech-01 source=engine_start position=on
                08:06 lock_applied tech-01 source=engine_start lock=L-1
                """
            )
            .Duty(EnergyDuty.DeviceHoldsOff);

        Assert.Equal(Verdict.NotMet, outcome.Verdict);
        Assert.Contains("as it was turned at 08:05 by tech-01", outcome.Statement, StringComparison.Ordinal);
    }

    /// <summary>The next person's lock goes on before the last one's comes off: that undoes nothing.</summary>
    [Fact]
    public void Judge_LocksChangedWithoutAGap_HoldOn()
    {
        var job = One.With(
            """
            08:00 isolator_operated tech-01 source=engine_start position=off
            08:01 lock_applied tech-01 source=engine_start lock=L-1
            08:03 isolation_verified tech-01 source=all
            08:04 lock_applied tech-01 source=engine_start lock=L-2
            08:05 lock_removed tech-01 source=engine_start lock=L-1
            08:15 work_started tech-01
            08:40 work_stopped tech-01
            """
        );

        Assert.Equal(Verdict.Met, job.VerdictOf(EnergyDuty.DeviceOnEachIsolator));
        Assert.Equal(Verdict.Met, job.VerdictOf(EnergyDuty.IsolationVerified));
    }

    [Theory]
    [InlineData("08:08 lock_applied tech-01 source=hydraulic lock=L-1", 1, "at another isolator")]
    [InlineData("08:06 lock_applied tech-01 source=all lock=L-1", 2, "one lock hangs on one")]
    [InlineData(
        "08:08 lock_applied tech-01 source=hydraulic lock=L-1\n08:07:30 lock_removed tech-01 source=engine_start lock=L-1",
        0,
        ""
    )]
    [InlineData("08:08 lock_applied tech-01 source=hydraulic lock=L-2", 0, "")]
    public void LockInTwoPlaces_OneLockOnTwoIsolators_IsDoubted(string line, int doubts, string told)
    {
        var job = Two.With("08:07 lock_applied tech-01 source=engine_start lock=L-1\n" + line);
        var reading = TimelineReading.Of(job.Frame());

        var outcome = job.Judge(new Check.Credibility(CredibilityOf.LockInTwoPlaces));

        Assert.Equal(doubts, reading.Weakened.Count);
        Assert.Equal(doubts == 0 ? Verdict.Met : Verdict.Unproven, outcome.Verdict);
        Assert.Contains(told, outcome.Statement, StringComparison.Ordinal);
    }

    [Fact]
    public void DeviceOnEachIsolator_OneLockOnTwoIsolators_IsNotProven()
    {
        var job = Two.With(
            """
            08:01 isolator_operated tech-01 source=engine_start
            08:02 isolator_operated tech-01 source=hydraulic
            08:07 lock_applied tech-01 source=engine_start lock=L-1
            08:08 lock_applied tech-01 source=hydraulic lock=L-1
            08:20 work_started tech-01
            08:40 work_stopped tech-01
            """
        );

        var outcome = job.Duty(EnergyDuty.DeviceOnEachIsolator);

        Assert.Equal((Verdict.Unproven, FindingReason.NotCredible), (outcome.Verdict, outcome.Reason));
    }

    /// <summary>One battery disconnect may well hold two sources off.</summary>
    [Fact]
    public void LockInTwoPlaces_TwoSourcesBehindOneIsolator_IsNoDoubt()
    {
        var job = One with
        {
            Procedure = SafetyCase.RideOn with
            {
                Sources =
                [
                    SafetyCase.Source("engine_start", "engine start", "battery_disconnect", true),
                    SafetyCase.Source("battery_drive", "battery drive", "Battery disconnect", true),
                ],
            },
        };

        Assert.Empty(
            TimelineReading.Of(job.With("08:06 lock_applied tech-01 source=all lock=L-1").Frame()).Weakened
        );
    }

    [Fact]
    public void Protection_CordPluggedInAgain_HoldsNoLonger()
    {
        var job = Cord.With(
            """
            13:00 isolator_operated tech-01 source=mains_cord
            13:01 plug_removed tech-01 source=mains_cord
            13:02 plug_control_confirmed tech-01 source=mains_cord
            13:05 work_started tech-01
            13:10 work_stopped tech-01
            13:12 source_added tech-01 source=mains_cord
            13:15 work_started tech-01
            13:20 work_stopped tech-01
            """
        );
        var reading = TimelineReading.Of(job.Frame());
        var source = SourceReading.Of(reading, Cord.Procedure!.Sources[0]);
        var again = reading.Works[1].Start;

        Assert.True(source.Proven.Contains(new(reading.Works[0].Start.Moment, reading.Works[0].Start.Index)));
        Assert.False(source.Isolated.Contains(new(again.Moment, again.Index)));
        Assert.False(source.Proven.Contains(new(again.Moment, again.Index)));
        Assert.Equal(Verdict.NotMet, job.Judge(new Check.Protection()).Verdict);
        Assert.Equal(Verdict.NotMet, job.VerdictOf(EnergyDuty.OwnDeviceThroughWork));
    }

    [Fact]
    public void OwnDeviceThroughWork_PlugTakenOverBySomebodyElse_IsNotTheirsAnyMore()
    {
        var job = Cord.With(
            """
            13:01 plug_removed tech-01 source=mains_cord
            13:02 plug_control_confirmed tech-01 source=mains_cord
            13:05 work_started tech-01
            13:10 plug_control_confirmed tech-02 source=mains_cord
            13:20 work_stopped tech-01
            """
        );

        Assert.Equal(Verdict.NotMet, job.VerdictOf(EnergyDuty.OwnDeviceThroughWork));
    }

    /// <summary>Whoever clears a blockage has hands in, whatever the record calls them.</summary>
    [Fact]
    public void PeopleAuthorised_AffectedPersonClearsTheBlockage_IsNotMet()
    {
        var job = Registers.InOrder.And("08:15 blockage_cleared_by_hand op-01");

        Assert.Contains(new("op-01"), TimelineReading.Of(job.Frame()).HandsIn);
        Assert.Equal(Verdict.NotMet, job.VerdictOf(EnergyDuty.WorkByAuthorised));
    }

    /// <summary>An entry that names nobody puts whoever made it in charge, for every duty.</summary>
    [Fact]
    public void PrimaryAssigned_NamesNobody_PutsItsActorInCharge()
    {
        var job = Registers.InOrder with
        {
            Locks = [Registers.Red("L-11", null), Registers.Red("L-12", "tech-01")],
        };
        var hung = job with
        {
            Entries =
            [
                .. job.Entries.Select(entry =>
                    entry.Kind == TimelineEventKind.LockApplied && entry.Lock?.Text == "L-11"
                        ? entry with
                        {
                            Actor = new("lead-01"),
                        }
                        : entry
                ),
            ],
        };

        Assert.Equal(Verdict.NotMet, hung.VerdictOf(EnergyDuty.DeviceShowsOwner));
        Assert.Equal(
            Verdict.Met,
            hung.And("07:50 primary_assigned lead-01").VerdictOf(EnergyDuty.DeviceShowsOwner)
        );
        Assert.Equal(
            Verdict.Met,
            hung.And("07:50 primary_assigned lead-01").VerdictOf(EnergyDuty.OnlyAuthorisedHang)
        );
    }

    /// <summary>One reading of who took what off, whichever check asks.</summary>
    [Fact]
    public void Protection_ExceptionThatTheSiteHasNotWritten_IsNotMetBeside()
    {
        var taken = Registers.InOrder with
        {
            Entries =
            [
                .. Registers
                    .InOrder.Entries.Where(entry => entry.Kind != TimelineEventKind.LockRemoved)
                    .Concat(
                        new SafetyCase()
                            .With(
                                """
                                09:44 absence_confirmed lead-01 others=tech-01
                                09:45 contact_attempted lead-01 others=tech-01
                                09:47 lock_removed lead-01 source=engine_start lock=L-11 exception=P-9
                                09:48 lock_removed lead-01 source=hydraulic lock=L-12 exception=P-9
                                """
                            )
                            .Entries
                    ),
            ],
        };
        var gone = taken with
        {
            Entries =
            [
                .. taken.Entries.Where(entry =>
                    !(
                        entry.Actor.Text == "tech-01"
                        && string.CompareOrdinal(entry.At.Text, "2026-04-13T09:43") > 0
                    )
                ),
            ],
        };

        Assert.Equal(gone.VerdictOf(EnergyDuty.DeviceOffByOwner), gone.Judge(new Check.Protection()).Verdict);
        Assert.Equal(Verdict.Unproven, gone.VerdictOf(EnergyDuty.DeviceOffByOwner));
    }
}
