using System.Collections.Immutable;

namespace ServiceRules.Application.Reports;

/// <summary>What whoever checks a report asks of it beyond being genuine.</summary>
public sealed record ReportDemand
{
    public static ReportDemand None { get; } = new();

    /// <summary>Names of points that a report may otherwise leave unclaimed, such as its place in a log.</summary>
    public ImmutableArray<string> Required { get; init; } = [];

    public LogDemand Log { get; init; } = LogDemand.None;

    /// <summary>The points as they count under this demand; one that was asked for and is not among them has failed.</summary>
    internal IEnumerable<ReportPoint> On(IReadOnlyCollection<ReportPoint> points) =>
        [
            .. points.Select(On),
            .. Required
                .Where(name => points.All(point => point.Name != name))
                .Select(name => ReportPoint.Failed(name, "nothing is known of it; it was asked for")),
        ];

    private ReportPoint On(ReportPoint point) =>
        point.Result == PointResult.NotClaimed && Required.Contains(point.Name, StringComparer.Ordinal)
            ? ReportPoint.Failed(point.Name, $"{point.Told}; it was asked for")
            : point;
}
