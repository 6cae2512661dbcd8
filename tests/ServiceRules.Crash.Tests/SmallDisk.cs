using ServiceRules.TestKit;

namespace ServiceRules.Crash.Tests;

/// <summary>A small disk in memory, which only whoever may mount one can have.</summary>
internal sealed class SmallDisk : IDisposable
{
    private SmallDisk(string place) => Place = place;

    public string Place { get; }

    /// <summary>Mounts one; the test is skipped where that is not allowed.</summary>
    public static SmallDisk Mounted(string size)
    {
        Skip.IfNot(
            OperatingSystem.IsLinux() && Environment.IsPrivilegedProcess,
            "only root on Linux can mount a small disk"
        );
        var place = Directory.CreateTempSubdirectory("servicerules-disk-").FullName;
        var mounted = Mount("-t", "tmpfs", "-o", $"size={size},mode=700", "none", place);
        if (mounted.ExitCode != 0)
        {
            Directory.Delete(place);
            Skip.If(true, $"no disk can be mounted here: {mounted.StandardError}");
        }

        return new SmallDisk(place);
    }

    /// <summary>Every write is refused from now on.</summary>
    public void TakeNothing()
    {
        var changed = Mount("-o", "remount,ro", Place);
        Assert.True(changed.ExitCode == 0, changed.StandardError);
    }

    public void Dispose()
    {
        _ = Tool.Require("umount").Run("-l", Place);
        Directory.Delete(Place);
    }

    private static ToolOutcome Mount(params string[] arguments) => Tool.Require("mount").Run(arguments);
}
