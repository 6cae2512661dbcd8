using ServiceRules.Application.Filed;

namespace ServiceRules.Application.Tests.Filed;

public sealed class DiskFullTests
{
    /// <summary>A device on which there is never room (full(4)).</summary>
    [SkippableFact]
    public void Is_WritingWhereThereIsNoRoom_IsSoAndNothingElseIs()
    {
        const string full = "/dev/full";
        Skip.IfNot(OperatingSystem.IsLinux() && File.Exists(full), "there is no such device");

        var failure = Assert.Throws<IOException>(() => File.WriteAllBytes(full, [1]));

        Assert.True(DiskFull.Is(failure), $"{failure.HResult}: {failure.Message}");
        Assert.False(DiskFull.Is(new FileNotFoundException()));
        Assert.False(DiskFull.Is(new UnauthorizedAccessException()));
    }
}
