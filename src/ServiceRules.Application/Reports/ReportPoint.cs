namespace ServiceRules.Application.Reports;

/// <summary>One thing that was checked about a report.</summary>
/// <param name="Name">Stable kebab-case name.</param>
/// <param name="Passed">True or false; null when an earlier failure made the check impossible.</param>
/// <param name="Told">What was found, in plain words.</param>
public sealed record ReportPoint(string Name, bool? Passed, string Told);
