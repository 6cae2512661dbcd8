using System.Diagnostics;
using Xunit.Abstractions;

namespace ServiceRules.Crash.Tests;

/// <summary>The service under steady load: what it holds of memory and open files stays where it was.</summary>
public sealed class SoakTests(ITestOutputHelper told)
{
    private const int Senders = 4;
    private const int HandlesAside = 40;
    private const double GrowthMost = 1.25;

    private static readonly TimeSpan WarmUp = Tier.Of(TimeSpan.FromSeconds(5), TimeSpan.FromMinutes(2));
    private static readonly TimeSpan Length = Tier.Of(TimeSpan.FromSeconds(5), TimeSpan.FromMinutes(8));

    [SkippableFact]
    public async Task Serve_UnderSteadyLoad_HoldsNoMoreThanBefore()
    {
        Skip.IfNot(OperatingSystem.IsLinux(), "what a process holds is read from /proc");
        using var folder = new DataFolder();
        using var service = await ServedProgram.StartAsync(folder.Data);
        using var client = await service.ClientAsync(folder.NewKey());
        var promises = new Promises();
        var number = 0;
        using var stop = new CancellationTokenSource();
        var senders = Enumerable
            .Range(0, Senders)
            .Select(one =>
                new Sender(promises, () => Interlocked.Increment(ref number), new Random(one)).SendAsync(
                    () => client,
                    stop.Token
                )
            )
            .ToList();

        await Task.Delay(WarmUp);
        var before = Held(service);
        await Task.Delay(Length);
        var after = Held(service);
        await stop.CancelAsync();
        await Task.WhenAll(senders);

        told.WriteLine(
            FormattableString.Invariant(
                $"{promises.Versions.Count} acknowledged; after {WarmUp.TotalSeconds:0} s {before.Bytes / 1_000_000} MB and {before.Handles} handles, "
            )
                + FormattableString.Invariant(
                    $"{Length.TotalSeconds:0} s later {after.Bytes / 1_000_000} MB and {after.Handles} handles"
                )
        );
        Assert.Empty(promises.Faults);
        Assert.InRange(after.Handles, 1, before.Handles + HandlesAside);
        // A program that has just begun still grows: only the long tier can tell.
        Assert.InRange(after.Bytes, 1, Tier.Of(long.MaxValue, (long)(before.Bytes * GrowthMost)));
    }

    private static (long Bytes, int Handles) Held(ServedProgram service)
    {
        using var process = Process.GetProcessById(service.ProcessId);
        return (process.WorkingSet64, Directory.GetFileSystemEntries($"/proc/{service.ProcessId}/fd").Length);
    }
}
