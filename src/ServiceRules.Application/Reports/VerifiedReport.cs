using System.Collections.Immutable;

namespace ServiceRules.Application.Reports;

/// <summary>Whether a report is genuine and complete, point by point.</summary>
public sealed record VerifiedReport(
    ReportStanding Standing,
    ImmutableArray<ReportPoint> Points,
    string? Signer,
    DateTimeOffset? SignedAt
)
{
    /// <summary>When the signature is proven to have been there, by an authority trusted here, or null.</summary>
    public DateTimeOffset? TrustedTime { get; init; }
}
