using System.Text.Json.Nodes;
using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Application.Tests.SafeWork;

/// <summary>What a lock hangs on, and which source a wedge, a lowered unit or a key is entered for.</summary>
public sealed class IsolatorUnderLockTests
{
    private const string Rule = "device-holds-off";

    [Theory]
    [InlineData("battery_disconnect")]
    [InlineData("Battery disconnect")]
    [InlineData("red padlock")]
    [InlineData("hasp")]
    public void Lock_OnTheIsolatorOfItsSource_MayGoOut(string isolator) => Locked(isolator).MayGoOut();

    [Theory]
    [InlineData("ignition_switch", Disposition.Stop)]
    [InlineData("emergency stop button", Disposition.Stop)]
    [InlineData("seat frame", Disposition.Hold)]
    [InlineData("padlock on the seat switch", Disposition.Hold)]
    [InlineData("hydraulic valve", Disposition.Hold)]
    public void Lock_OnSomethingElse_IsKept(string isolator, Disposition by) =>
        Locked(isolator).IsKept(by, Rule, $"`{isolator}`");

    [Fact]
    public void Lock_OnTheIsolatorThatWasTurnedOff_IsNoWorseForNamingIt() =>
        Locked("battery isolator")
            .Change(entry => Is(entry, "isolator_operated"), entry => entry["isolator"] = "battery isolator")
            .MayGoOut();

    [Fact]
    public void UnitsLowered_EnteredForGravity_LetsItOff() => Lowered("gravity").MayGoOut();

    [Fact]
    public void UnitsLowered_EnteredForAnotherSource_LetsNoGravityOff() =>
        Assert.Contains(
            Lowered("engine_start").Judge().Findings,
            one => one.Rule == "stored-energy-released" && one.Verdict == Verdict.NotMet
        );

    private static EditedJob Lowered(string source) =>
        EditedJob
            .Of("height-check")
            .Without(entry => Is(entry, "stored_energy_released") && (string?)entry["source"] == "gravity")
            .Change(entry => Is(entry, "units_lowered"), entry => entry["source"] = source)
            .Move("units_lowered", "08:05:30")
            .InOrderOfTime();

    private static EditedJob Locked(string isolator) =>
        EditedJob
            .Of("height-check")
            .Change(entry => Is(entry, "lock_applied"), entry => entry["isolator"] = isolator);

    private static bool Is(JsonObject entry, string kind) => entry["event"]!.GetValue<string>() == kind;
}
