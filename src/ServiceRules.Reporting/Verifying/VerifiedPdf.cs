using System.Security.Cryptography.X509Certificates;

namespace ServiceRules.Reporting.Verifying;

/// <summary>What could be established about a file.</summary>
/// <param name="Points">Every check, in order.</param>
/// <param name="Attachments">
/// By name, cut from the very bytes the signature covers; empty unless the file is intact, so that nobody reads
/// evidence from a file that was changed.
/// </param>
/// <param name="Certificate">The signing certificate as found in the file, trusted or not.</param>
/// <param name="SignedAt">The time the signer stated: the clock of the issuing machine, no more.</param>
/// <param name="TimestampAskedOf">Host of the authority that was to stamp the signature, as signed, or null.</param>
/// <param name="TrustedTime">When the signature is proven to have been there, by a trusted authority, or null.</param>
public sealed record VerifiedPdf(
    IReadOnlyList<VerificationPoint> Points,
    IReadOnlyDictionary<string, byte[]> Attachments,
    X509Certificate2? Certificate,
    DateTimeOffset? SignedAt,
    string? TimestampAskedOf,
    DateTimeOffset? TrustedTime
)
{
    /// <summary>Not one byte differs from what was signed; who signed is another question.</summary>
    public bool IsIntact => Points.All(point => point.LeavesIntact);

    public bool IsTrusted => StateOf(VerificationCheck.Trust) == PointState.Passed;

    /// <summary>Intact and signed by someone trusted here, at a time that is established if that was asked.</summary>
    public bool IsGenuine => Points.All(point => point.LeavesGenuine);

    public IEnumerable<VerificationPoint> Failures => Points.Where(point => point.State == PointState.Failed);

    public PointState StateOf(VerificationCheck check) => Points.Single(point => point.Check == check).State;
}
