using System.Globalization;
using System.Security.Cryptography;
using System.Security.Cryptography.Pkcs;
using System.Security.Cryptography.X509Certificates;
using System.Text;
using ServiceRules.Reporting.Signing;
using ServiceRules.Reporting.Verifying;

namespace ServiceRules.Reporting.Tests.Verifying;

/// <summary>
/// Files signed with the right key over the right bytes, but not as a baseline signature must be: what only the checks
/// of the container can find, since every digest and every signature value is true.
/// </summary>
public class ResignedReportTests
{
    private static readonly byte[] Report = SampleReport.Bytes(SampleReport.Json("record.json", "{}"));

    private static X509Certificate2 Own => SampleReport.Key.Certificate;

    private static VerifiedPdf Verify(byte[] file) =>
        PdfVerification.Verify(file, VerificationGrounds.Of([Own]));

    private static VerificationCheck FirstFailure(byte[] file) => Verify(file).Failures.First().Check;

    [Fact]
    public void Verify_SignedAgainAsItMustBe_IsGenuine() =>
        Assert.True(Verify(Resign(content => BaselineSignature.Over(content, SampleReport.Key))).IsGenuine);

    [Fact]
    public void Verify_SigningCertificateAttributeOfAnotherCertificate_IsNotGenuine()
    {
        using var other = SigningKeyMaking.SelfSigned("Alder Reach Parks Trust", SampleReport.IssuedAt);

        var file = Resign(content => Sign(content, Essential(other)));

        Assert.Equal(VerificationCheck.SigningCertificate, FirstFailure(file));
    }

    [Fact]
    public void Verify_WithoutSigningCertificateAttribute_IsNotGenuine() =>
        Assert.Equal(
            VerificationCheck.SignatureContainer,
            FirstFailure(Resign(content => Sign(content, new Pkcs9DocumentName("x"))))
        );

    [Fact]
    public void Verify_WithSigningTimeAttribute_IsNotGenuine() =>
        Assert.Equal(
            VerificationCheck.SignatureContainer,
            FirstFailure(
                Resign(content =>
                    Sign(content, Essential(Own), new Pkcs9SigningTime(SampleReport.IssuedAt.UtcDateTime))
                )
            )
        );

    [Fact]
    public void Verify_WithUnsignedAttribute_IsNotGenuine() =>
        Assert.Equal(
            VerificationCheck.SignatureContainer,
            FirstFailure(
                Resign(content =>
                {
                    var cms = Decode(Sign(content, Essential(Own)), content);
                    cms.SignerInfos[0].AddUnsignedAttribute(new Pkcs9DocumentName("x"));
                    return cms.Encode();
                })
            )
        );

    [Fact]
    public void Verify_TwoSigners_IsNotGenuine() =>
        Assert.Equal(
            VerificationCheck.SignatureContainer,
            FirstFailure(
                Resign(content =>
                {
                    var cms = Decode(Sign(content, Essential(Own)), content);
                    cms.ComputeSignature(Signer([Essential(Own)]), silent: true);
                    return cms.Encode();
                })
            )
        );

    [Fact]
    public void Verify_CertificateThatHasNoPart_IsNotGenuine()
    {
        using var stowaway = SigningKeyMaking.SelfSigned("Alder Reach Parks Trust", SampleReport.IssuedAt);

        var file = Resign(content =>
        {
            var cms = Decode(Sign(content, Essential(Own)), content);
            cms.AddCertificate(stowaway);
            return cms.Encode();
        });

        Assert.Equal(VerificationCheck.SigningCertificate, FirstFailure(file));
    }

    [Fact]
    public void Verify_DigestOtherThanSha256_IsNotGenuine() =>
        Assert.Equal(
            VerificationCheck.SignatureContainer,
            FirstFailure(
                Resign(content =>
                {
                    var signer = Signer([Essential(Own)]);
                    signer.DigestAlgorithm = new Oid("2.16.840.1.101.3.4.2.3");
                    var cms = new SignedCms(new ContentInfo(content), detached: true);
                    cms.ComputeSignature(signer, silent: true);
                    return cms.Encode();
                })
            )
        );

    [Theory]
    [InlineData("[0 {0} {1} {2}]", true)]
    [InlineData("[1 {0} {1} {2}]", false)]
    [InlineData("[0 {0} {1}]", false)]
    [InlineData("[0 {0} {1} {2} 0]", false)]
    [InlineData("[0 0{0} {1} {2}]", false)]
    [InlineData("[0 -{0} {1} {2}]", false)]
    [InlineData("[0 {0}.0 {1} {2}]", false)]
    [InlineData("[00 {0} {1} {2}]", false)]
    public void Verify_ByteRangeSpelledOtherwise_IsNotGenuine(string range, bool expected)
    {
        var (start, end) = Gap(Report);
        var spelled = string.Format(CultureInfo.InvariantCulture, range, start, end, Report.Length - end);
        var text = Encoding.Latin1.GetString(Report);
        var from = text.IndexOf("/ByteRange[", StringComparison.Ordinal) + 10;
        var until = text.IndexOf("/Reason", from, StringComparison.Ordinal);
        byte[] changed = [.. Report];
        Encoding.Latin1.GetBytes(spelled.PadRight(until - from)).CopyTo(changed, from);

        var file = Resign(content => BaselineSignature.Over(content, SampleReport.Key), changed);

        Assert.Equal(expected, Verify(file).IsGenuine);
    }

    // Signs as reports are signed: with the lower s.
    private static readonly SignerKey LowKey = new(SampleReport.Key);

    private static byte[] Resign(Func<byte[], byte[]> sign, byte[]? report = null)
    {
        byte[] file = [.. report ?? Report];
        var (start, end) = Gap(file);
        var digits = Convert.ToHexString(sign([.. file[..start], .. file[end..]]));
        var padded = digits.PadRight(end - start - 2, '0');
        Encoding.ASCII.GetBytes(padded).CopyTo(file, start + 1);
        return file;
    }

    private static (int Start, int End) Gap(byte[] file)
    {
        var text = Encoding.Latin1.GetString(file);
        var start = text.IndexOf("/Contents<3", StringComparison.Ordinal) + 9;
        return (start, text.IndexOf('>', start) + 1);
    }

    private static AsnEncodedData Essential(X509Certificate2 certificate) =>
        new("1.2.840.113549.1.9.16.2.47", BaselineSignature.SigningCertificateV2(certificate));

    private static byte[] Sign(byte[] content, params AsnEncodedData[] attributes)
    {
        var cms = new SignedCms(new ContentInfo(content), detached: true);
        cms.ComputeSignature(Signer(attributes), silent: true);
        return cms.Encode();
    }

    private static CmsSigner Signer(AsnEncodedData[] attributes)
    {
        var signer = new CmsSigner(SubjectIdentifierType.IssuerAndSerialNumber, Own, LowKey)
        {
            DigestAlgorithm = new Oid("2.16.840.1.101.3.4.2.1"),
            IncludeOption = X509IncludeOption.EndCertOnly,
        };
        foreach (var attribute in attributes)
        {
            signer.SignedAttributes.Add(attribute);
        }
        return signer;
    }

    private static SignedCms Decode(byte[] encoded, byte[] content)
    {
        var cms = new SignedCms(new ContentInfo(content), detached: true);
        cms.Decode(encoded);
        return cms;
    }
}
