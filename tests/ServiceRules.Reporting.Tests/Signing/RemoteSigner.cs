using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using ServiceRules.Reporting.Signing;

namespace ServiceRules.Reporting.Tests.Signing;

/// <summary>Stands for a hardware token or a key service: it signs, and there is no private key to be had from it.</summary>
internal sealed class RemoteSigner(X509Certificate2 certificate, Func<byte[], byte[]> sign) : IReportSigner
{
    public X509Certificate2 Certificate { get; } = X509CertificateLoader.LoadCertificate(certificate.RawData);

    public IReadOnlyList<X509Certificate2> Issuers => [];

    public int Asked { get; private set; }

    public static RemoteSigner Of(X509Certificate2 own)
    {
        var key = own.GetECDsaPrivateKey()!;
        return new RemoteSigner(own, digest => key.SignHash(digest));
    }

    public byte[] SignDigest(ReadOnlySpan<byte> digest)
    {
        Asked++;
        Assert.Equal(SHA256.HashSizeInBytes, digest.Length);
        return sign(digest.ToArray());
    }
}
