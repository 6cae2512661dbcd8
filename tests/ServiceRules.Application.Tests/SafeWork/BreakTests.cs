using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Application.Tests.SafeWork;

/// <summary>Going away in the midst of a job: what is hung again and proven again is good, and what is not is not.</summary>
public sealed class BreakTests
{
    private const string Lock = """{ "source": "engine_start", "lock": "L-21" }""";
    private const string Rehung = """{ "source": "engine_start", "lock": "L-21", "position": "off" }""";
    private const string On =
        """{ "source": "engine_start", "isolator": "battery_disconnect", "position": "on" }""";
    private const string Off =
        """{ "source": "engine_start", "isolator": "battery_disconnect", "position": "off" }""";
    private const string All = """{ "source": "all" }""";
    private const string Hydraulic = """{ "source": "hydraulic" }""";
    private const string Protected = "work-protected";

    [Theory]
    [InlineData("height-check", "tech-02", "L-21")]
    [InlineData("clear-blockage", "tech-01", "L-11")]
    public void Lock_OffAndHungAgainWithTheIsolatorSeenOff_AllVerified_MayGoOut(
        string fixture,
        string by,
        string device
    )
    {
        var (stop, hung, verified, again) =
            fixture == "height-check"
                ? ("08:16", "08:24", "08:26", "08:27")
                : ("11:13", "11:14:20", "11:14:40", "11:15");
        EditedJob
            .Of(fixture)
            .With("work_stopped", stop, by)
            .With(
                "lock_removed",
                hung.Replace("24", "17", StringComparison.Ordinal)
                    .Replace("14:20", "13:20", StringComparison.Ordinal),
                by,
                $$"""{ "source": "engine_start", "lock": "{{device}}" }"""
            )
            .With(
                "lock_applied",
                hung,
                by,
                $$"""{ "source": "engine_start", "lock": "{{device}}", "position": "off" }"""
            )
            .With("isolation_verified", verified, by, All)
            .With("work_started", again, by)
            .MayGoOut();
    }

    [Fact]
    public void Lock_TwoBreaksRunning_MayGoOut() =>
        Broken(Rehung)
            .With("work_stopped", "08:27:30", "tech-02")
            .With("lock_removed", "08:27:40", "tech-02", Lock)
            .With("lock_applied", "08:28:10", "tech-02", Rehung)
            .With("isolation_verified", "08:28:40", "tech-02", All)
            .With("work_started", "08:29", "tech-02")
            .MayGoOut();

    [Fact]
    public void Lock_OffAndOnAgainBeforeAnyWork_WithANewProof_MayGoOut() =>
        EditedJob
            .Of("height-check")
            .With("lock_removed", "08:09:20", "tech-02", Lock)
            .With("lock_applied", "08:09:30", "tech-02", Rehung)
            .With("isolation_verified", "08:09:50", "tech-02", All)
            .MayGoOut();

    [Fact]
    public void Lock_HungAgainBeforeAnyWork_WithoutANewProof_Stops() =>
        EditedJob
            .Of("height-check")
            .With("lock_removed", "08:09:20", "tech-02", Lock)
            .With("lock_applied", "08:09:30", "tech-02", Rehung)
            .IsKept(Disposition.Stop, "isolation-verified", "before the lock taken off at 08:09:20");

    [Fact]
    public void Lock_HungAgainWithoutAWordOfThePosition_Stops() =>
        Broken(Lock)
            .IsKept(
                Disposition.Stop,
                Protected,
                "engine start isolated again after the lock taken off at 08:17"
            );

    [Fact]
    public void Lock_HungAgainAndNothingVerified_Stops() =>
        Broken(Rehung)
            .Without(entry => Is(entry, "isolation_verified", "08:26"))
            .IsKept(Disposition.Stop, Protected, "engine start verified dead after it was made safe");

    [Fact]
    public void Lock_HungAgainAndVerifiedByTheOtherSourcesOnly_Stops() =>
        Broken(Rehung)
            .Change(entry => Is(entry, "isolation_verified", "08:26"), entry => entry["source"] = "hydraulic")
            .IsKept(Disposition.Stop, Protected, "engine start verified dead after it was made safe");

    [Fact]
    public void Isolator_TurnedOnMeanwhile_AndOnlyTheLockHungAgain_Stops() =>
        Broken(Rehung)
            .With("isolator_operated", "08:20", "tech-02", On)
            .IsKept(Disposition.Stop, Protected, "engine start isolated again");

    [Fact]
    public void Isolator_TurnedOnMeanwhile_AndOffAgain_MayGoOut() =>
        Broken(Rehung)
            .With("isolator_operated", "08:20", "tech-02", On)
            .With("isolator_operated", "08:23", "tech-02", Off)
            .MayGoOut();

    [Fact]
    public void Machine_StartedMeanwhile_AndOnlyTheLockHungAgain_Stops() =>
        Broken(Rehung)
            .With("machine_started", "08:20", "tech-02")
            .With("machine_shut_down", "08:21", "tech-02")
            .IsKept(Disposition.Stop, Protected, "engine start isolated again");

    [Fact]
    public void Hands_LeftInOverTheBreak_Stop() =>
        Broken(Rehung)
            .Without(entry => Is(entry, "work_stopped", "08:16") || Is(entry, "work_started", "08:27"))
            .IsKept(Disposition.Stop, "own-device-through-work", "after the lock taken off at 08:17");

    [Fact]
    public void Hands_AtTheUnitInTheBreak_Stop() =>
        Broken(Rehung)
            .With("reel_wedged", "08:20", "tech-02")
            .IsKept(Disposition.Stop, Protected, "the reel wedged at 08:20");

    [Theory]
    [InlineData("gravity")]
    [InlineData("hydraulic")]
    [InlineData("all")]
    public void Energy_LetOffOnceMoreInABreak_LocksOn_MayGoOut(string source) =>
        EditedJob
            .Of("height-check")
            .With("work_stopped", "08:16", "tech-02")
            .With("stored_energy_released", "08:20", "tech-02", $$"""{ "source": "{{source}}" }""")
            .With("work_started", "08:25", "tech-02")
            .MayGoOut();

    [Fact]
    public void Energy_LetOffOnceMore_WordsSayThatItStayed_IsHeld() =>
        EditedJob
            .Of("height-check")
            .With("work_stopped", "08:16", "tech-02")
            .With(
                "stored_energy_released",
                "08:20",
                "tech-02",
                """{ "source": "hydraulic", "method": "pressure stayed" }"""
            )
            .With("work_started", "08:25", "tech-02")
            .IsKept(Disposition.Hold, Protected, "pressure stayed");

    [Fact]
    public void Energy_LetOffOnceMore_AfterTheLockWasOff_ProvesNothing() =>
        Broken(Rehung)
            .Without(entry => Is(entry, "isolation_verified", "08:26"))
            .With("stored_energy_released", "08:25", "tech-02", Hydraulic)
            .IsKept(Disposition.Stop, Protected, "engine start verified dead after it was made safe");

    private static EditedJob Broken(string rehung) =>
        EditedJob
            .Of("height-check")
            .With("work_stopped", "08:16", "tech-02")
            .With("lock_removed", "08:17", "tech-02", Lock)
            .With("lock_applied", "08:24", "tech-02", rehung)
            .With("isolation_verified", "08:26", "tech-02", All)
            .With("work_started", "08:27", "tech-02");

    private static bool Is(System.Text.Json.Nodes.JsonObject entry, string kind, string at) =>
        entry["event"]!.GetValue<string>() == kind
        && entry["at"]!.GetValue<string>().Contains($"T{at}:00", StringComparison.Ordinal);
}
