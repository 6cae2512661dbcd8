namespace ServiceRules.Application.Reports;

/// <summary>One thing that was checked about a report.</summary>
/// <param name="Name">Stable kebab-case name.</param>
/// <param name="Result">How it ended.</param>
/// <param name="Told">What was found, in plain words.</param>
public sealed record ReportPoint(string Name, PointResult Result, string Told)
{
    public static ReportPoint Passed(string name, string told) => new(name, PointResult.Passed, told);

    public static ReportPoint Failed(string name, string told) => new(name, PointResult.Failed, told);
}
