using BenchmarkDotNet.Columns;
using BenchmarkDotNet.Configs;
using BenchmarkDotNet.Diagnosers;
using BenchmarkDotNet.Jobs;
using BenchmarkDotNet.Toolchains.InProcess.Emit;

namespace ServiceRules.Benchmarks;

/// <summary>A run of about a minute, in this process: enough for ratios, too little for absolute times.</summary>
public sealed class ShortRun : ManualConfig
{
    private const int Warmups = 6;
    private const int Iterations = 9;

    public ShortRun()
    {
        AddJob(
            Job.ShortRun.WithToolchain(InProcessEmitToolchain.Instance)
                .WithWarmupCount(Warmups)
                .WithIterationCount(Iterations)
        );
        AddDiagnoser(MemoryDiagnoser.Default);
        HideColumns(
            Column.Job,
            Column.Toolchain,
            Column.IterationCount,
            Column.LaunchCount,
            Column.WarmupCount
        );
    }
}
