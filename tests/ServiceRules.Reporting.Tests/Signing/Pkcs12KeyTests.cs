using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using ServiceRules.Reporting.Signing;

namespace ServiceRules.Reporting.Tests.Signing;

public class Pkcs12KeyTests
{
    private static readonly DateTimeOffset At = SampleReport.IssuedAt;

    private static byte[] Pack(AsymmetricAlgorithm key, X509KeyUsageFlags usage)
    {
        const string Name = "CN=signer";
        var request = key is ECDsa curve
            ? new CertificateRequest(Name, curve, HashAlgorithmName.SHA256)
            : new CertificateRequest(Name, (RSA)key, HashAlgorithmName.SHA256, RSASignaturePadding.Pkcs1);
        request.CertificateExtensions.Add(new X509KeyUsageExtension(usage, critical: true));
        using var certificate = request.CreateSelfSigned(At.AddDays(-1), At.AddDays(30));
        return certificate.Export(X509ContentType.Pkcs12, "secret");
    }

    private static SigningKeyOutcome Open(byte[] content, string password = "secret") =>
        Pkcs12Key.Open(content, password, At);

    private static string Reason(SigningKeyOutcome outcome) =>
        Assert.IsType<SigningKeyOutcome.Refused>(outcome).Reason;

    [Fact]
    public void Open_CurveKeyForSigning_IsUsable()
    {
        using var key = ECDsa.Create(ECCurve.NamedCurves.nistP256);

        var outcome = Open(Pack(key, X509KeyUsageFlags.NonRepudiation));

        using var opened = Assert.IsType<SigningKeyOutcome.Usable>(outcome).Key;
        Assert.Equal("CN=signer", opened.Certificate.Subject);
        Assert.NotEmpty(BaselineSignature.Over([1, 2, 3], opened));
    }

    [Fact]
    public void Open_OtherCurve_IsRefused()
    {
        using var key = ECDsa.Create(ECCurve.NamedCurves.nistP384);

        Assert.Contains(
            "P-256",
            Reason(Open(Pack(key, X509KeyUsageFlags.DigitalSignature))),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Open_OtherKindOfKey_IsRefused()
    {
        using var key = RSA.Create(2048);

        Assert.Contains(
            "P-256",
            Reason(Open(Pack(key, X509KeyUsageFlags.DigitalSignature))),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Open_KeyMadeForSomethingElse_IsRefused()
    {
        using var key = ECDsa.Create(ECCurve.NamedCurves.nistP256);

        Assert.Contains(
            "key usage",
            Reason(Open(Pack(key, X509KeyUsageFlags.CrlSign))),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Open_WrongPassword_IsRefused()
    {
        using var key = ECDsa.Create(ECCurve.NamedCurves.nistP256);

        Assert.Contains(
            "password",
            Reason(Open(Pack(key, X509KeyUsageFlags.DigitalSignature), "wrong")),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Open_NotPkcs12_IsRefused() =>
        Assert.Contains("not PKCS#12", Reason(Open([1, 2, 3])), StringComparison.Ordinal);
}
