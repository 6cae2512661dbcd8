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
public sealed record VerifiedPdf(
    IReadOnlyList<VerificationPoint> Points,
    IReadOnlyDictionary<string, byte[]> Attachments,
    X509Certificate2? Certificate,
    DateTimeOffset? SignedAt
)
{
    /// <summary>Not one byte differs from what was signed; who signed is another question.</summary>
    public bool IsIntact =>
        Points.All(point => point.State == PointState.Passed || point.Check == VerificationCheck.Trust);

    public bool IsTrusted => StateOf(VerificationCheck.Trust) == PointState.Passed;

    /// <summary>Intact and signed by someone trusted here.</summary>
    public bool IsGenuine => IsIntact && IsTrusted;

    public IEnumerable<VerificationPoint> Failures => Points.Where(point => point.State == PointState.Failed);

    public PointState StateOf(VerificationCheck check) => Points.Single(point => point.Check == check).State;
}
