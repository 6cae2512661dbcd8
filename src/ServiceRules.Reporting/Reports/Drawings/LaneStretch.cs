namespace ServiceRules.Reporting.Reports.Drawings;

/// <summary>A stretch of a timeline by the numbers of events.</summary>
/// <param name="From">The event that begins it; nought: it holds from the start.</param>
/// <param name="Until">The event that ends it; null: no end is shown.</param>
internal readonly record struct LaneStretch(int From, int? Until);
