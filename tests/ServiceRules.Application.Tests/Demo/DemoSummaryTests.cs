using ServiceRules.Application.Demo;

namespace ServiceRules.Application.Tests.Demo;

/// <summary>The whole product on two seasons: every seeded fault is found, and nothing else is held.</summary>
public sealed class DemoSummaryTests
{
    [Fact]
    public void Of_UsualSeed_FindsEverySeededFault() =>
        Assert.Equal([], Summary().Faults.Where(fault => !fault.IsFound).Select(Told));

    private static DemoSummary Summary() => DemoSummary.Of(DemoSeasons.Judged);

    private static string Told(FaultOutcome fault) =>
        $"{fault.Judged.Job.Record.Id} {fault.Fault.Kind}: {string.Join(", ", fault.Missed.Select(missed => $"{missed.Rule} on {missed.Subject.Key}"))}";
}
