using ServiceRules.Application.Reports;

namespace ServiceRules.Host.Verifying;

/// <summary>One thing that was looked at in a report.</summary>
/// <param name="Name">Its stable name.</param>
/// <param name="Result">passed, failed, not-reached, not-established or not-claimed.</param>
/// <param name="Told">What was found, in plain words.</param>
internal sealed record ToldPoint(string Name, string Result, string Told)
{
    public static ToldPoint Of(ReportPoint point) =>
        new(point.Name, ReportWords.Of(point.Result), point.Told);
}
