using System.Security.Cryptography.X509Certificates;

namespace ServiceRules.Reporting.Signing;

/// <summary>
/// Everything that the page says about its signature. It is known before the signature is made, and can be read again
/// from the signed bytes.
/// </summary>
/// <param name="Certificate">The signer's certificate.</param>
/// <param name="At">The stated time: the clock of the issuing machine.</param>
/// <param name="TimestampAskedOf">Host of the authority that stamps the signature, or null when none is asked.</param>
public sealed record SignatureStatement(
    X509Certificate2 Certificate,
    DateTimeOffset At,
    string? TimestampAskedOf = null
)
{
    /// <summary>On whose clock the time of issue rests, as page one tells it.</summary>
    public string Ground =>
        TimestampAskedOf is null
            ? "the clock of the issuing machine; no independent time-stamp."
            : $"the clock of the issuing machine, and beside it the clock of {TimestampAskedOf}, whose time-stamp is part "
                + "of the signature.";
}
