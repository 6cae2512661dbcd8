using ServiceRules.Application.Reports;
using ServiceRules.Reporting.Signing;
using ServiceRules.Reporting.Timestamping;

namespace ServiceRules.Reporting.Reports;

/// <summary>What issuing takes, whatever the report tells.</summary>
internal static class ReportIssue
{
    /// <summary>What is said about a signature that is about to be made.</summary>
    /// <exception cref="InvalidOperationException">The signer is not fit for a report of that time.</exception>
    public static SignatureStatement Stated(
        IReportSigner signer,
        DateTimeOffset issuedAt,
        ITimestampAuthority? authority
    ) =>
        SigningKeyFitness.PublicFault(signer.Certificate, issuedAt) is { } fault
            ? throw new InvalidOperationException($"the signer is not fit for this report: {fault}")
            // The file states its instant to the second: what is drawn must follow from what is stated.
            : new(
                signer.Certificate,
                DateTimeOffset.FromUnixTimeSeconds(issuedAt.ToUnixTimeSeconds()),
                authority?.Host
            );

    /// <exception cref="InvalidOperationException">The proofs cannot be read.</exception>
    public static FiledIn? Log(FilingProofs? proofs)
    {
        if (proofs is null)
        {
            return null;
        }
        var (log, fault) = FiledIn.Read(proofs);
        return log ?? throw new InvalidOperationException(fault);
    }
}
