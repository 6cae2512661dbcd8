using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Model;
using ServiceRules.Rules.Tests.Evaluation.Timeline;

namespace ServiceRules.Rules.Tests.Evaluation.Duties;

/// <summary>A reel that jams again after it was freed.</summary>
public sealed class BlockageDutiesTests
{
    private const string First = """
        08:50 machine_shut_down tech-01
        08:52 seen_at_rest tech-01
        08:55 stored_energy_released tech-01 source=hydraulic
        09:00 blockage_cleared_with_tool tech-01
        09:05 area_inspected tech-01
        09:10 machine_started tech-01

        """;

    private const string Second = """
        09:12 machine_shut_down tech-01
        09:13 seen_at_rest tech-01
        09:14 stored_energy_released tech-01 source=hydraulic
        09:20 blockage_cleared_with_tool tech-01
        09:25 area_inspected tech-01
        09:30 machine_started tech-01
        """;

    private static readonly SafetyCase Jammed = new();

    [Theory]
    [InlineData(EnergyDuty.BlockageStopped, "09:12 machine_shut_down")]
    [InlineData(EnergyDuty.BlockageStopped, "09:13 seen_at_rest")]
    [InlineData(EnergyDuty.BlockagePressureReleased, "09:14 stored_energy_released")]
    [InlineData(EnergyDuty.BlockageCheckedAfter, "09:05 area_inspected")]
    [InlineData(EnergyDuty.BlockageCheckedAfter, "09:25 area_inspected")]
    public void Judge_ClearedAgainAfterARun_AsksTheSameAgain(EnergyDuty of, string step)
    {
        var lines = (First + Second).Split('\n');

        Assert.Equal(Verdict.Met, Jammed.With(First + Second).VerdictOf(of));
        Assert.Equal(
            Verdict.NotMet,
            Jammed
                .With(
                    string.Join('\n', lines.Where(line => !line.StartsWith(step, StringComparison.Ordinal)))
                )
                .VerdictOf(of)
        );
    }

    [Fact]
    public void Judge_ClearedAgainWithNothingBefore_NamesTheSecond()
    {
        var outcome = Jammed
            .With(First + "09:20 blockage_cleared_with_tool tech-01")
            .Duty(EnergyDuty.BlockageStopped);

        Assert.Equal(Verdict.NotMet, outcome.Verdict);
        Assert.Contains("at 09:20", outcome.Statement, StringComparison.Ordinal);
    }

    /// <summary>A machine that still runs is not seen at rest.</summary>
    [Fact]
    public void Stopped_SeenAtRestBeforeTheShutdown_IsNotMet()
    {
        var outcome = Jammed
            .With(
                """
                08:00 seen_at_rest tech-01
                08:05 machine_shut_down tech-01
                08:10 blockage_cleared_with_tool tech-01
                """
            )
            .Duty(EnergyDuty.BlockageStopped);

        Assert.Equal(Verdict.NotMet, outcome.Verdict);
        Assert.Contains(
            "everything seen at rest after the machine shut down at 08:05",
            outcome.Statement,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void IsolatingDevice_OtherThanWrittenDown_IsMetAndTold()
    {
        var outcome = Registers
            .InOrder.Without(TimelineEventKind.IsolatorOperated)
            .And("08:06 isolator_operated tech-01 source=engine_start isolator=fuse")
            .And("08:07 isolator_operated tech-01 source=hydraulic isolator=Valve")
            .Duty(EnergyDuty.IsolatingDevice);

        Assert.Equal(Verdict.Met, outcome.Verdict);
        Assert.Contains(
            "written down as `battery disconnect`, and `fuse` was operated at 08:06",
            Assert.Single(outcome.Notices),
            StringComparison.Ordinal
        );
    }

    [Theory]
    [InlineData("by hand", Verdict.NotMet)]
    [InlineData("by hand, no tool", Verdict.NotMet)]
    [InlineData("by hand, no tools but kept well clear", Verdict.Unproven)]
    [InlineData("With his hands.", Verdict.NotMet)]
    [InlineData("pulled out by hand", Verdict.NotMet)]
    [InlineData("stick, then the rest with the fingers", Verdict.Unproven)]
    [InlineData("stick, then pulled the rest with my glove", Verdict.Unproven)]
    [InlineData("long stick, kicked the last of it out", Verdict.Unproven)]
    [InlineData("bar, reached in for the rest", Verdict.Unproven)]
    [InlineData("long stick with the reel still turning", Verdict.Unproven)]
    [InlineData("stick while running slowly", Verdict.Unproven)]
    [InlineData("long stick, engine running", Verdict.Unproven)]
    [InlineData("long stick, with gloves on", Verdict.Met)]
    [InlineData("long stick, reel not turning", Verdict.Met)]
    [InlineData("bar, turning the reel back", Verdict.Met)]
    [InlineData("reached in with a hook", Verdict.Met)]
    [InlineData("hook, never by hand", Verdict.Met)]
    [InlineData("hand hook", Verdict.Met)]
    [InlineData("hardwood stick", Verdict.Met)]
    public void BlockageTool_MethodSpeaksOfHands_IsNotTakenForATool(string method, Verdict verdict)
    {
        var cleared = Jammed.With(First);
        var entries = cleared.Entries.Select(entry =>
            entry.Kind == TimelineEventKind.BlockageClearedWithTool ? entry with { Method = method } : entry
        );

        Assert.Equal(verdict, (cleared with { Entries = [.. entries] }).VerdictOf(EnergyDuty.BlockageTool));
    }
}
