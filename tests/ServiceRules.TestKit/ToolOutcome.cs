namespace ServiceRules.TestKit;

/// <summary>What an outside program said and how it ended.</summary>
public sealed record ToolOutcome(int ExitCode, string StandardOutput, string StandardError)
{
    /// <summary>Both streams and the exit code, for the text of a failing assertion.</summary>
    public override string ToString() =>
        FormattableString.Invariant(
            $"exit code {ExitCode}\nstdout:\n{StandardOutput}\nstderr:\n{StandardError}"
        );
}
