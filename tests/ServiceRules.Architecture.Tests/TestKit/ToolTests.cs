using ServiceRules.TestKit;

namespace ServiceRules.Architecture.Tests.TestKit;

public sealed class ToolTests
{
    private const string Absent = "servicerules-no-such-program";

    [Fact]
    public void Require_AbsentOnTheBuildServer_Fails()
    {
        var fault = Assert.Throws<InvalidOperationException>(() => Tool.Require(Absent, mustExist: true));

        Assert.Contains(Absent, fault.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Require_AbsentElsewhere_SkipsWithTheReason()
    {
        var skip = Assert.Throws<SkipException>(() => Tool.Require(Absent, mustExist: false));

        Assert.Contains(Absent, skip.Message, StringComparison.Ordinal);
    }

    [SkippableFact]
    public void Run_ProgramThatFails_GivesBothStreamsAndTheExitCode()
    {
        var outcome = Tool.Require("sh").Run("-c", "cat; echo said; echo wrong >&2; exit 3");

        Assert.Equal(new ToolOutcome(3, "said\n", "wrong\n"), outcome);
    }

    [SkippableFact]
    public void Run_MoreOutputThanAPipeHolds_IsReadWhole()
    {
        var outcome = Tool.Require("sh").Run("-c", "head -c 300000 /dev/zero >&2; head -c 300000 /dev/zero");

        Assert.Equal((300_000, 300_000), (outcome.StandardOutput.Length, outcome.StandardError.Length));
    }

    [SkippableFact]
    public void Run_ProgramThatHangs_IsStopped()
    {
        var sleeper = Tool.Require("sleep");

        _ = Assert.Throws<TimeoutException>(() => sleeper.Run(TimeSpan.FromMilliseconds(200), ["30"]));
    }
}
