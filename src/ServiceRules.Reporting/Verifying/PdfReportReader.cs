using System.Security.Cryptography.X509Certificates;
using ServiceRules.Application.Reports;
using ServiceRules.Reporting.Signing;

namespace ServiceRules.Reporting.Verifying;

/// <summary>Reads signed reports on their raw bytes, with the certificates that are trusted here.</summary>
public sealed class PdfReportReader(VerificationGrounds grounds) : IReportReader
{
    public PdfReportReader(IReadOnlyList<X509Certificate2> trusted)
        : this(VerificationGrounds.Of(trusted)) { }

    public SignedReport Read(ReadOnlyMemory<byte> file)
    {
        var verified = PdfVerification.Verify(file, grounds);
        return new SignedReport(
            [.. verified.Points.Select(Told)],
            verified.IsIntact,
            verified.IsTrusted,
            verified.Certificate is { } certificate
                ? $"{certificate.Subject}, certificate SHA-256 {CertificateFingerprint.Of(certificate)}"
                : null,
            verified.Certificate,
            verified.SignedAt,
            verified.Attachments
        )
        {
            TimestampAskedOf = verified.TimestampAskedOf,
            TrustedTime = verified.TrustedTime,
        };
    }

    private static ReportPoint Told(VerificationPoint point) =>
        new(
            NameOf(point.Check),
            point.State switch
            {
                PointState.Passed => PointResult.Passed,
                PointState.Failed => PointResult.Failed,
                PointState.NotClaimed => PointResult.NotClaimed,
                PointState.NotEstablished => PointResult.NotEstablished,
                _ => PointResult.NotReached,
            },
            point.Told
        );

    private static string NameOf(VerificationCheck check) =>
        check switch
        {
            VerificationCheck.FileShape => "file-shape",
            VerificationCheck.OneSignature => "one-signature",
            VerificationCheck.SignedRange => "signed-range",
            VerificationCheck.SignatureContainer => "signature-container",
            VerificationCheck.ContentDigest => "content-digest",
            VerificationCheck.SignatureValue => "signature-value",
            VerificationCheck.SigningCertificate => "signing-certificate",
            VerificationCheck.Trust => VerifyReport.Trust,
            VerificationCheck.Timestamp => VerifyReport.Timestamp,
            VerificationCheck.Revocation => "revocation",
            VerificationCheck.Attachments => "attachments",
            _ => throw new ArgumentOutOfRangeException(nameof(check), check, null),
        };
}
