using System.Security.Cryptography.Pkcs;
using ServiceRules.Reporting.Signing;
using ServiceRules.TestKit;

namespace ServiceRules.Reporting.Tests.Signing;

public sealed class BaselineSignatureTests : IDisposable
{
    private static readonly byte[] Content = [1, 2, 3, 4, 5];

    private readonly Scratch _scratch = new();

    public void Dispose() => _scratch.Dispose();

    // EN 319 142-1, table 1, as read by two open implementations; see tests/reference/evidence/pdf.
    [Fact]
    public void Over_Content_CarriesTheThreeBaselineAttributesAndNoOther()
    {
        var cms = new SignedCms();
        cms.Decode(BaselineSignature.Over(Content, SampleReport.Key));

        Assert.Empty(cms.ContentInfo.Content);
        var signer = Assert.Single(cms.SignerInfos.Cast<SignerInfo>());
        Assert.Equal(
            ["1.2.840.113549.1.9.16.2.47", "1.2.840.113549.1.9.3", "1.2.840.113549.1.9.4"],
            signer
                .SignedAttributes.Cast<System.Security.Cryptography.CryptographicAttributeObject>()
                .Select(attribute => attribute.Oid.Value)
                .Order(StringComparer.Ordinal)
        );
        Assert.Empty(signer.UnsignedAttributes);
        Assert.Equal("2.16.840.1.101.3.4.2.1", signer.DigestAlgorithm.Value);
        Assert.Equal(SampleReport.Key.Certificate.RawData, Assert.Single(cms.Certificates).RawData);
    }

    [SkippableFact]
    public void Openssl_SignatureWithCadesChecks_Verifies()
    {
        var said = Check(Content);

        Assert.True(said.ExitCode == 0, said.ToString());
    }

    [SkippableFact]
    public void Openssl_OtherContent_DoesNotVerify() => Assert.NotEqual(0, Check([1, 2, 3, 4, 6]).ExitCode);

    private ToolOutcome Check(byte[] content)
    {
        var openssl = Tool.Require("openssl");
        var signature = BaselineSignature.Over(Content, SampleReport.Key);
        return openssl.Run(
            "cms",
            "-verify",
            "-binary",
            "-inform",
            "DER",
            "-cades",
            "-attime",
            SampleReport
                .IssuedAt.AddDays(1)
                .ToUnixTimeSeconds()
                .ToString(System.Globalization.CultureInfo.InvariantCulture),
            "-in",
            _scratch.Write("signature.der", signature),
            "-content",
            _scratch.Write("content.bin", content),
            "-CAfile",
            _scratch.Write("root.pem", System.Text.Encoding.ASCII.GetBytes(SampleReport.Key.CertificatePem)),
            "-out",
            _scratch.At("out.bin")
        );
    }
}
