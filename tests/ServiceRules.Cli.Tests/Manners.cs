using ServiceRules.TestKit;

namespace ServiceRules.Cli.Tests;

/// <summary>What holds for every run, whatever it is given.</summary>
internal static class Manners
{
    // Five seconds of processor time and 300 MB: a laptop in the shop has both to spare.
    private static readonly TimeSpan MostCpu = TimeSpan.FromSeconds(5);
    private const long MostBytes = 300_000_000;

    public static void Hold(ProductOutcome outcome)
    {
        Assert.True(outcome.ExitCode is 0 or 1 or 2, $"the tool failed: {outcome}");
        Assert.True(IsFreeOfStackTraces(outcome), $"a stack trace was shown: {outcome}");
        Assert.True(outcome.Cpu < MostCpu, $"it took too long: {outcome}");
        Assert.True(outcome.PeakBytes is null or < MostBytes, $"it took too much memory: {outcome}");
    }

    /// <summary>Refused, with a reason, and nothing on standard output that a program would take for an answer.</summary>
    public static void HoldForRefusal(ProductOutcome outcome)
    {
        Hold(outcome);
        Assert.True(outcome.ExitCode == 2, $"it was not refused: {outcome}");
        Assert.True(outcome.StandardOutput.Length == 0, $"a refusal came with an answer: {outcome}");
        Assert.NotEmpty(outcome.Complaints);
    }

    public static bool IsFreeOfStackTraces(ProductOutcome outcome) =>
        !outcome.StandardOutput.Contains("   at ", StringComparison.Ordinal)
        && !outcome.StandardError.Contains("   at ", StringComparison.Ordinal)
        && !outcome.StandardError.Contains("Exception", StringComparison.Ordinal);
}
