using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;

namespace ServiceRules.TestKit;

/// <summary>A certificate authority of the tests, with its key.</summary>
public sealed class Authority : IDisposable
{
    private readonly DateTimeOffset _from;
    private readonly DateTimeOffset _to;
    private byte _serial;

    private Authority(X509Certificate2 certificate, DateTimeOffset from, DateTimeOffset to)
    {
        Certificate = certificate;
        _from = from;
        _to = to;
    }

    public X509Certificate2 Certificate { get; }

    public static Authority Root(string name, DateTimeOffset from, DateTimeOffset to)
    {
        using var key = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        return new Authority(AuthorityRequest(name, key).CreateSelfSigned(from, to), from, to);
    }

    public Authority Under(string name, DateTimeOffset? to = null)
    {
        using var key = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        using var certificate = AuthorityRequest(name, key)
            .Create(Certificate, _from, to ?? _to, [1, ++_serial]);
        return new Authority(certificate.CopyWithPrivateKey(key), _from, to ?? _to);
    }

    /// <summary>A certificate without its key, which the caller has.</summary>
    public X509Certificate2 Issue(
        string name,
        AsymmetricAlgorithm key,
        X509KeyUsageFlags usage = X509KeyUsageFlags.DigitalSignature,
        string? purpose = null,
        DateTimeOffset? from = null,
        DateTimeOffset? to = null
    )
    {
        var request = key is ECDsa curve
            ? new CertificateRequest(name, curve, HashAlgorithmName.SHA256)
            : new CertificateRequest(name, (RSA)key, HashAlgorithmName.SHA256, RSASignaturePadding.Pkcs1);
        request.CertificateExtensions.Add(new X509KeyUsageExtension(usage, critical: true));
        if (purpose is not null)
        {
            request.CertificateExtensions.Add(
                new X509EnhancedKeyUsageExtension([new Oid(purpose)], critical: true)
            );
        }
        var generator = X509SignatureGenerator.CreateForECDsa(Certificate.GetECDsaPrivateKey()!);
        return request.Create(Certificate.SubjectName, generator, from ?? _from, to ?? _to, [2, ++_serial]);
    }

    public void Dispose() => Certificate.Dispose();

    private static CertificateRequest AuthorityRequest(string name, ECDsa key)
    {
        var request = new CertificateRequest(name, key, HashAlgorithmName.SHA256);
        request.CertificateExtensions.Add(new X509BasicConstraintsExtension(true, false, 0, true));
        request.CertificateExtensions.Add(
            new X509KeyUsageExtension(X509KeyUsageFlags.KeyCertSign | X509KeyUsageFlags.CrlSign, true)
        );
        request.CertificateExtensions.Add(new X509SubjectKeyIdentifierExtension(request.PublicKey, false));
        return request;
    }
}
