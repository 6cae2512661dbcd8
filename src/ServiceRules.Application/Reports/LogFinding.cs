namespace ServiceRules.Application.Reports;

/// <summary>What one thing given beside a report says of it.</summary>
/// <param name="Result">Passed, failed, or not established where it settles nothing.</param>
/// <param name="Told">What was found, in plain words.</param>
internal sealed record LogFinding(PointResult Result, string Told)
{
    public static LogFinding Good(string told) => new(PointResult.Passed, told);

    public static LogFinding Open(string told) => new(PointResult.NotEstablished, told);

    public static LogFinding Contradicted(string told) => new(PointResult.Failed, told);
}
