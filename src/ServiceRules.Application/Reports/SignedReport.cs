using System.Collections.Immutable;
using System.Security.Cryptography.X509Certificates;

namespace ServiceRules.Application.Reports;

/// <summary>What the bytes of a file say: the checks made on them and, if they are intact, what they carry.</summary>
/// <param name="Points">The checks, in order.</param>
/// <param name="IsIntact">Not one byte differs from what was signed.</param>
/// <param name="IsTrusted">Signed by a certificate that is trusted here.</param>
/// <param name="Signer">The signing certificate in one line, or null.</param>
/// <param name="Certificate">The signing certificate as it stands in the file, trusted or not, or null.</param>
/// <param name="SignedAt">The time the signer stated, or null.</param>
/// <param name="Attachments">By name; empty unless intact.</param>
public sealed record SignedReport(
    ImmutableArray<ReportPoint> Points,
    bool IsIntact,
    bool IsTrusted,
    string? Signer,
    X509Certificate2? Certificate,
    DateTimeOffset? SignedAt,
    IReadOnlyDictionary<string, byte[]> Attachments
)
{
    /// <summary>Host of the authority that was to stamp the signature, as signed, or null.</summary>
    public string? TimestampAskedOf { get; init; }

    /// <summary>When the signature is proven to have been there, by an authority trusted here, or null.</summary>
    public DateTimeOffset? TrustedTime { get; init; }
}
