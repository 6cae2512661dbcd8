using System.Collections.Immutable;

namespace ServiceRules.Application.Reports;

/// <summary>Whether a report is genuine and complete, point by point.</summary>
public sealed record VerifiedReport(
    ReportStanding Standing,
    ImmutableArray<ReportPoint> Points,
    string? Signer,
    DateTimeOffset? SignedAt
);
