namespace ServiceRules.TestKit;

/// <summary>What the environment says about this run of the tests.</summary>
public static class TestRun
{
    /// <summary>Set to 1 to write what the tests produced as the new expectation: review the difference, then commit.</summary>
    public const string AcceptVariable = "SERVICERULES_ACCEPT";

    /// <summary>True on the build server, where nothing may be skipped or accepted.</summary>
    public static bool IsContinuousIntegration { get; } =
        string.Equals(Environment.GetEnvironmentVariable("CI"), "true", StringComparison.OrdinalIgnoreCase);

    /// <summary>True when a person asked to accept what the tests produce.</summary>
    public static bool IsAccepting { get; } =
        !IsContinuousIntegration
        && string.Equals(Environment.GetEnvironmentVariable(AcceptVariable), "1", StringComparison.Ordinal);
}
