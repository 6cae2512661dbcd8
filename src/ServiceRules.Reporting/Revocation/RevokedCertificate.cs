using System.Security.Cryptography.X509Certificates;

namespace ServiceRules.Reporting.Revocation;

/// <summary>One entry of a revocation list.</summary>
/// <param name="Serial">Serial number of the certificate, in hex.</param>
/// <param name="From">From when on its signatures do not count.</param>
public sealed record RevokedCertificate(string Serial, DateTimeOffset From, X509RevocationReason Reason)
{
    /// <summary>
    /// Whether the key was given up in good order: then nobody else had it, and what it signed before may be taken at
    /// its stated time. In every other case somebody else may have it, and can state any time.
    /// </summary>
    public bool IsInGoodOrder =>
        Reason is X509RevocationReason.Superseded or X509RevocationReason.CessationOfOperation;

    public string ReasonTold =>
        Reason switch
        {
            X509RevocationReason.KeyCompromise => "key-compromise",
            X509RevocationReason.Superseded => "superseded",
            X509RevocationReason.CessationOfOperation => "cessation",
            X509RevocationReason.Unspecified => "no reason given",
            var other => other.ToString(),
        };
}
