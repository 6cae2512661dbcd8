using ServiceRules.Application.Reports;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Host.Verifying;

/// <summary>Whether a report is genuine, point by point.</summary>
/// <param name="Standing">genuine, signer-not-trusted, not-established, not-genuine or unreadable.</param>
/// <param name="Points">What was looked at, in order.</param>
/// <param name="Signer">Who signed, as the certificate says; left out where nothing could be read.</param>
/// <param name="StatedTime">When, by the signer's own clock.</param>
/// <param name="ProvenTime">When, by a time-stamp authority; none is trusted by the service itself.</param>
/// <param name="Here">Where it stands in the log of this service; left out where this very file does not.</param>
internal sealed record VerificationAnswer(
    string Standing,
    IReadOnlyList<ToldPoint> Points,
    string? Signer,
    string? StatedTime,
    string? ProvenTime,
    ToldPlace? Here
)
{
    public static VerificationAnswer Of(VerifiedReport report, ToldPlace? here) =>
        new(
            ReportWords.Of(report.Standing),
            [.. report.Points.Select(ToldPoint.Of)],
            report.Signer,
            report.SignedAt is { } at ? UtcTime.Stamp(at) : null,
            report.TrustedTime is { } stamped ? UtcTime.Stamp(stamped) : null,
            here
        );
}
