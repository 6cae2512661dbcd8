namespace ServiceRules.Crash.Tests;

/// <summary>How much is tried: the quick tier of every run, or the long one that somebody asked for.</summary>
internal static class Tier
{
    /// <summary>Set to 1 for the long tier.</summary>
    private const string Variable = "SERVICERULES_LONG";

    public static bool IsLong { get; } =
        string.Equals(Environment.GetEnvironmentVariable(Variable), "1", StringComparison.Ordinal);

    public static T Of<T>(T quick, T inFull) => IsLong ? inFull : quick;
}
