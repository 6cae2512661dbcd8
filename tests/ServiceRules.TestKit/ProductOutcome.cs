namespace ServiceRules.TestKit;

/// <summary>How one run of the command line ended, and what it took.</summary>
/// <param name="Cpu">Processor time, which, unlike the time on the wall, does not depend on what else runs.</param>
/// <param name="PeakBytes">Most memory held at once; null where the process was not its own.</param>
public sealed record ProductOutcome(
    int ExitCode,
    string StandardOutput,
    string StandardError,
    TimeSpan Cpu,
    long? PeakBytes
)
{
    /// <summary>Lines of standard error.</summary>
    public IReadOnlyList<string> Complaints =>
        StandardError.Split('\n', StringSplitOptions.RemoveEmptyEntries);

    /// <summary>Everything, for the text of a failing assertion.</summary>
    public override string ToString() =>
        FormattableString.Invariant(
            $"exit code {ExitCode}, {Cpu.TotalSeconds:0.0} s, {PeakBytes / 1_000_000} MB\nstdout:\n{StandardOutput}\nstderr:\n{StandardError}"
        );
}
