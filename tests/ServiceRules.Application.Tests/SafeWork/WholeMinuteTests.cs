using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Application.Tests.SafeWork;

/// <summary>A timeline noted in minutes beside a bench log noted in seconds: a minute is a whole minute.</summary>
public sealed class WholeMinuteTests
{
    private const string Agree = "bench-times-agree";

    [Fact]
    public void Reading_InTheMinuteInWhichWorkEnded_SecondsNotNotedThere_MayGoOut() =>
        InMinutes().Unit(0, ReadAt("08:30:40")).MayGoOut();

    [Fact]
    public void Reading_InTheMinuteAfter_IsHeld() =>
        InMinutes().Unit(0, ReadAt("08:31:04")).IsKept(Disposition.Hold, Agree, "08:31:04");

    [Fact]
    public void Reading_AfterAnEndOfWorkNotedInSeconds_IsHeld() =>
        EditedJob.Of("height-check").Unit(0, ReadAt("08:30:40")).IsKept(Disposition.Hold, Agree, "08:30:40");

    [Fact]
    public void Reading_InTheMinuteInWhichWorkEnded_TheMachineRunningByThen_IsKept() =>
        InMinutes()
            .With("machine_started", "08:30:20", "tech-04")
            .With("machine_shut_down", "08:30:50", "tech-04")
            .Unit(0, ReadAt("08:30:40"))
            .IsKept(Disposition.Stop, "work-protected", "while the machine ran");

    private static EditedJob InMinutes() => EditedJob.Of("height-check").ToTheMinute();

    private static string ReadAt(string time) =>
        $$"""{ "read": "height-of-cut", "station": "left", "value": "3.80 mm", "with": "HG-01", "by": "tech-02", "at": "2026-04-13T{{time}}+01:00" }""";
}
