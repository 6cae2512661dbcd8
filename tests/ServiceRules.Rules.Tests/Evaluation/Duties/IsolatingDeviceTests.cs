using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Model;
using ServiceRules.Rules.Tests.Evaluation.Timeline;

namespace ServiceRules.Rules.Tests.Evaluation.Duties;

/// <summary>What is an isolating device by its words, and what only controls.</summary>
public sealed class IsolatingDeviceTests
{
    [Theory]
    [InlineData("isolator=stop_button", Verdict.NotMet)]
    [InlineData("isolator=Seat-Switch", Verdict.NotMet)]
    [InlineData("isolator=kill_switch", Verdict.NotMet)]
    [InlineData("isolator=remote_stop", Verdict.NotMet)]
    [InlineData("isolator=PTO_lever", Verdict.Unproven)]
    [InlineData("isolator=lock-out_screen", Verdict.Unproven)]
    [InlineData("isolator=battery_kill_switch", Verdict.Unproven)]
    [InlineData("isolator=yellow_strap", Verdict.Unproven)]
    [InlineData("isolator=battery_cover", Verdict.Unproven)]
    [InlineData("isolator=master_switch", Verdict.Met)]
    [InlineData("isolator=battery_disconnect", Verdict.Met)]
    [InlineData("", Verdict.Met)]
    public void IsolatingDevice_ByItsKind(string isolator, Verdict expected) =>
        Assert.Equal(
            expected,
            LeadUpDutiesTests
                .Changed(
                    "08:06 isolator_operated tech-01 source=engine_start",
                    $"08:06 isolator_operated tech-01 source=engine_start {isolator}"
                )
                .VerdictOf(EnergyDuty.IsolatingDevice)
        );

    [Fact]
    public void IsolatingDevice_NamedAsAControl_TellsWhatIsWrittenDown()
    {
        var outcome = new SafetyCase()
            .With(
                "08:01 isolator_operated tech-01 source=engine_start isolator=joystick_lock\n" + MakeSafe.Work
            )
            .Duty(EnergyDuty.IsolatingDevice);

        Assert.Equal(
            (Verdict.Unproven, FindingReason.ProcedureNotFollowed),
            (outcome.Verdict, outcome.Reason)
        );
        Assert.Equal(
            "The record shows `joystick_lock` operated at 08:01 by tech-01 as the isolator of engine start: by its words a control, which keeps no energy out, and not `battery disconnect`, which is written down for it.",
            outcome.Statement
        );
    }

    [Theory]
    // The site says that this one does; of a stop it cannot; with the written one operated too.
    [InlineData("joystick lock", "joystick-lock", "", Verdict.Met)]
    [InlineData("remote stop", "remote_stop", "", Verdict.NotMet)]
    [InlineData(null, "joystick_lock", "", Verdict.Unproven)]
    [InlineData("disconnect", "joystick_lock", "disconnect", Verdict.Met)]
    [InlineData("disconnect", "joystick_lock", "screen", Verdict.Unproven)]
    [InlineData("disconnect", "kill_switch", "screen", Verdict.NotMet)]
    public void IsolatingDevice_NamedAsAControl_IsHeldAgainstTheWrittenOne(
        string? written,
        string operated,
        string besides,
        Verdict expected
    )
    {
        const string entry = " isolator_operated tech-01 source=engine_start isolator=";
        var outcome = (
            new SafetyCase() with
            {
                Procedure = SafetyCase.RideOn with
                {
                    Sources = [SafetyCase.Source("engine_start", "engine start", isolator: written)],
                },
            }
        )
            .With(
                $"08:06{entry}{operated}\n"
                    + (besides.Length == 0 ? string.Empty : $"08:07{entry}{besides}\n")
                    + MakeSafe.Work
            )
            .Duty(EnergyDuty.IsolatingDevice);

        Assert.Equal(expected, outcome.Verdict);
    }

    /// <summary>A record that names no device shows none; what the procedure has for it is told as that.</summary>
    [Fact]
    public void IsolatingDevice_ThatNobodyNamed_IsNotSaidToBeShown()
    {
        var outcome = new SafetyCase()
            .With("08:01 isolator_operated tech-01 source=engine_start position=off\n" + MakeSafe.Work)
            .Duty(EnergyDuty.IsolatingDevice);

        Assert.Equal(Verdict.Met, outcome.Verdict);
        Assert.Equal(
            "The record shows isolators turned off and names no control device. Which device was operated at 08:01 it does not name; `battery disconnect` is written down for it, which is no control device.",
            outcome.Statement
        );
    }

    [Fact]
    public void IsolatingDevice_RealOneOnlyAfterTheWork_DoesNotMakeItGood() =>
        Assert.Equal(
            Verdict.NotMet,
            MakeSafe
                .Complete.With(
                    "08:06 isolator_operated tech-01 source=engine_start isolator=key_switch\n"
                        + MakeSafe.Work
                        + "09:50 isolator_operated tech-01 source=engine_start isolator=battery_disconnect"
                )
                .VerdictOf(EnergyDuty.IsolatingDevice)
        );
}
