namespace ServiceRules.Cli.Setup;

/// <summary>What the process says to its caller.</summary>
internal static class ExitCode
{
    /// <summary>Every job may go out; the report is written, or genuine; the rules are sound.</summary>
    public const int Good = 0;

    /// <summary>At least one hold or stop; not genuine; a rule or case is wrong.</summary>
    public const int NotGood = 1;

    /// <summary>The input could not be used.</summary>
    public const int Unusable = 2;

    /// <summary>The tool itself failed.</summary>
    public const int Failed = 3;
}
