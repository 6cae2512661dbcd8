using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Application.Tests.SafeWork;

/// <summary>What an entry names, held against what the site has written down: its isolator, its procedure, its tool.</summary>
public sealed class NamesInTheTimelineTests
{
    [Theory]
    [InlineData("yellow strap")]
    [InlineData("ratchet")]
    [InlineData("battery cover")]
    [InlineData("valve gauge")]
    [InlineData("toggle switch")]
    public void Isolator_NeitherWrittenDownNorAKnownDevice_IsHeld(string isolator) =>
        Isolated(isolator)
            .IsKept(
                Disposition.Hold,
                "isolating-device",
                $"`{isolator}` operated at 08:05 by tech-02 as the isolator of engine start: by its name no known isolating device, and not `battery_disconnect`"
            );

    [Theory]
    [InlineData("Battery Disconnect")]
    [InlineData("battery-disconnect")]
    [InlineData("negative terminal")]
    [InlineData("main breaker")]
    [InlineData("master_switch")]
    [InlineData("plug connector of the battery")]
    public void Isolator_AsWrittenDownOrAKnownDevice_MayGoOut(string isolator) =>
        Isolated(isolator).MayGoOut();

    [Fact]
    public void Isolator_UnknownBesideTheRealOne_MayGoOut() =>
        EditedJob
            .Of("height-check")
            .With(
                "isolator_operated",
                "08:04:50",
                "tech-02",
                """{ "source": "engine_start", "isolator": "yellow strap", "position": "off" }"""
            )
            .MayGoOut();

    [Theory]
    [InlineData("P-ride-on-1")]
    [InlineData("P-pedestrian-2")]
    public void GoneThrough_ByAnotherProcedure_IsHeldAndBothAreNamed(string procedure) =>
        GoneThrough(procedure)
            .IsKept(
                Disposition.Hold,
                "energy-reviewed",
                $"by procedure {procedure}; in force for M-02 was P-ride-on-2."
            );

    [Theory]
    [InlineData("P-ride-on-2")]
    [InlineData("p-ride_on-2")]
    public void GoneThrough_ByTheProcedureInForce_MayGoOut(string procedure) =>
        GoneThrough(procedure).MayGoOut();

    [Fact]
    public void GoneThrough_ByAnotherAndThenByTheOneInForce_MayGoOut() =>
        GoneThrough("P-ride-on-1")
            .With("energy_reviewed", "08:02", "tech-02", """{ "procedure": "P-ride-on-2" }""")
            .MayGoOut();

    [Theory]
    [InlineData("spanner")]
    [InlineData("with long-nosed pliers")]
    [InlineData("pried loose with a crowbar")]
    [InlineData("with a tool")]
    [InlineData("two screwdrivers and a mallet")]
    public void Blockage_ByAToolOfTheTradeWithTheMachineLocked_MayGoOut(string how) =>
        Cleared(how).MayGoOut();

    [Theory]
    [InlineData("spanner, the reel still turning")]
    [InlineData("no tool")]
    [InlineData("without a spanner")]
    [InlineData("spanner, then my fingers")]
    [InlineData("somehow")]
    public void Blockage_WithNoToolShown_IsHeld(string how) =>
        Cleared(how).IsKept(Disposition.Hold, "blockage-by-tool", how);

    [Theory]
    [InlineData("lock_applied")]
    [InlineData("isolation_verified")]
    public void Blockage_ByASpannerWithTheMachineNotLocked_SaysSo(string missing) =>
        Assert.Contains(
            Cleared("spanner").Without(missing).Judge().Findings,
            found => found.Rule == "blockage-by-tool" && found.Verdict == Verdict.Unproven
        );

    [Fact]
    public void Blockage_ByASpannerInARun_SaysSo() =>
        Assert.Contains(
            Cleared("spanner").With("machine_started", "11:11", "tech-01").Judge().Findings,
            found => found.Rule == "blockage-by-tool" && found.Verdict == Verdict.Unproven
        );

    private static EditedJob Isolated(string isolator) =>
        EditedJob
            .Of("height-check")
            .Change(
                entry => entry["event"]!.GetValue<string>() == "isolator_operated",
                entry => entry["isolator"] = isolator
            );

    private static EditedJob GoneThrough(string procedure) =>
        EditedJob
            .Of("height-check")
            .Change(
                entry => entry["event"]!.GetValue<string>() == "energy_reviewed",
                entry => entry["procedure"] = procedure
            );

    private static EditedJob Cleared(string how) =>
        EditedJob
            .Of("clear-blockage")
            .Procedures(procedure =>
                procedure["blockageTools"] = new System.Text.Json.Nodes.JsonArray("hook")
            )
            .Change(
                entry => entry["event"]!.GetValue<string>() == "blockage_cleared_with_tool",
                entry => entry["method"] = how
            );
}
