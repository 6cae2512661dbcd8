using ServiceRules.Domain.Site;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Model;
using ServiceRules.Rules.Tests.Evaluation.Timeline;

namespace ServiceRules.Rules.Tests.Evaluation.Duties;

/// <summary>
/// A key in a pocket, a plug under somebody's eyes, a tag and a lock are four things. Where a lock fits the first three are
/// none, whichever duty asks.
/// </summary>
public sealed class KeptKeyAndPlugTests
{
    private const string InsteadOfTheLock = """
        08:06 isolator_operated tech-01 source=engine_start
        08:06 plug_removed tech-01 source=engine_start
        08:07 plug_control_confirmed tech-01 source=engine_start
        08:07 key_removed tech-01
        08:17 isolation_verified tech-01 source=all

        """;

    private static readonly SafetyCase Lockable = new SafetyCase() with
    {
        Procedure = With(
            SafetyCase.Source("engine_start", "engine start", "battery disconnect", lockable: true)
        ),
    };

    private static readonly SafetyCase ValveWithoutLock = new SafetyCase() with
    {
        Procedure = With(
            SafetyCase.Source("engine_start", "engine start", "battery disconnect", lockable: true),
            SafetyCase.Source("hydraulic", "hydraulic pressure", "valve", stored: true)
        ),
    };

    public static TheoryData<EnergyDuty> OfDevices =>
        [EnergyDuty.DeviceOnEachIsolator, EnergyDuty.OwnDeviceThroughWork];

    [Theory]
    [MemberData(nameof(OfDevices))]
    public void Judge_KeyAndPlugKeptWhereALockFits_AreNoLock(EnergyDuty of) =>
        Assert.Equal(Verdict.NotMet, Lockable.With(InsteadOfTheLock + MakeSafe.Work).VerdictOf(of));

    [Fact]
    public void Protection_KeyAndPlugKeptWhereALockFits_DoesNotProtect() =>
        Assert.Equal(
            Verdict.NotMet,
            Lockable.With(InsteadOfTheLock + MakeSafe.Work).Judge(new Check.Protection()).Verdict
        );

    [Fact]
    public void OwnDeviceInGroup_PlugKeptBesideLockableIsolator_IsNoDeviceOfOnesOwn()
    {
        var two = Lockable with { People = [SafetyCase.Person("tech-01"), SafetyCase.Person("tech-02")] };
        const string timeline = """
            08:06 isolator_operated tech-01 source=engine_start
            08:08 lock_applied tech-01 source=engine_start lock=L-11 position=off
            08:09 plug_control_confirmed tech-02
            08:17 isolation_verified tech-01 source=all
            08:20 work_started tech-01
            08:21 work_started tech-02
            08:40 work_stopped tech-02
            08:41 work_stopped tech-01
            """;

        Assert.Equal(Verdict.NotMet, two.With(timeline).VerdictOf(EnergyDuty.OwnDeviceInGroup));
    }

    [Fact]
    public void RelockedAfterTest_KeyKeptWhereALockFits_IsNoLockPutOnAgain() =>
        Assert.Equal(
            Verdict.NotMet,
            Lockable
                .With(
                    InsteadOfTheLock
                        + MakeSafe.Work
                        + """
                        09:50 test_energised tech-01
                        09:58 test_ended tech-01
                        10:00 isolator_operated tech-01 source=engine_start
                        10:01 key_removed tech-01
                        10:02 isolation_verified tech-01 source=all
                        10:20 work_started tech-01
                        10:40 work_stopped tech-01
                        """
                )
                .VerdictOf(EnergyDuty.RelockedAfterTest)
        );

    /// <summary>The key keeps the engine from being started; the valve that takes no lock it does not hold shut.</summary>
    [Theory]
    [InlineData("08:10 key_removed tech-01\n", Verdict.NotMet)]
    [InlineData(
        "08:10 plug_removed tech-01\n08:11 plug_control_confirmed tech-01 source=engine_start\n",
        Verdict.NotMet
    )]
    [InlineData("08:10 plug_control_confirmed tech-01 source=hydraulic\n", Verdict.NotMet)]
    [InlineData("08:10 tag_applied tech-01 source=hydraulic lock=G-1 at-lock-point=yes\n", Verdict.Met)]
    public void Judge_ValveThatTakesNoLock_IsHeldByNoKeyAndByNoPlugOfAnother(string control, Verdict expected)
    {
        var job = ValveWithoutLock.With(
            """
            08:06 isolator_operated tech-01 source=engine_start
            08:07 isolator_operated tech-01 source=hydraulic
            08:08 lock_applied tech-01 source=engine_start lock=L-11 position=off

            """
                + control
                + """
                08:12 stored_energy_released tech-01 source=hydraulic
                08:17 isolation_verified tech-01 source=all

                """
                + MakeSafe.Work
        );

        Assert.Equal(expected, job.VerdictOf(EnergyDuty.DeviceOnEachIsolator));
        Assert.Equal(expected, job.Judge(new Check.Protection()).Verdict);
    }

    /// <summary>Where two isolators take no lock, a plug of which no source is entered is the plug of neither.</summary>
    [Theory]
    [InlineData("", Verdict.NotMet)]
    [InlineData(" source=hydraulic", Verdict.Met)]
    public void Judge_PlugOfNoNamedSource_IsThatOfTheOnlyOneThatTakesNoLock(string named, Verdict expected)
    {
        var job = new SafetyCase() with
        {
            Procedure = With(
                SafetyCase.Source("engine_start", "engine start", "spark lead"),
                SafetyCase.Source("hydraulic", "power pack", "plug")
            ),
        };

        Assert.Equal(
            expected,
            job.With(
                    $"""
                    08:06 plug_removed tech-01{named}
                    08:07 plug_control_confirmed tech-01{named}
                    08:08 plug_removed tech-01 source=engine_start
                    08:09 plug_control_confirmed tech-01 source=engine_start
                    08:10 isolation_verified tech-01 source=engine_start

                    """ + MakeSafe.Work
                )
                .Judge(new Check.Protection())
                .Verdict
        );
    }

    [Theory]
    [InlineData("08:10 lock_applied tech-01 source=engine_start lock=L-11\n", Verdict.Met)]
    [InlineData(
        "07:00 lock_applied tech-01 source=engine_start lock=L-11\n07:30 lock_removed tech-01 source=engine_start lock=L-11\n",
        Verdict.NotMet
    )]
    public void LockWhereItFits_LockOffBeforeTheTagHung_LeavesTheTagAlone(string locked, Verdict expected) =>
        Assert.Equal(
            expected,
            Lockable
                .With(
                    locked
                        + "08:09 tag_applied tech-01 source=engine_start lock=G-1 at-lock-point=yes\n"
                        + MakeSafe.Work
                )
                .VerdictOf(EnergyDuty.LockWhereItFits)
        );

    private static Procedure With(params EnergySource[] sources) =>
        SafetyCase.RideOn with
        {
            Sources = [.. sources],
        };
}
