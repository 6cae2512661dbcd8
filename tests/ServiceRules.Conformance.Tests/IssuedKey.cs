using System.Security.Cryptography;
using System.Text;
using ServiceRules.TestKit;

namespace ServiceRules.Conformance.Tests;

/// <summary>A key with a certificate for signing documents (RFC 9336 has the purpose's kind) that an authority issued.</summary>
internal sealed class IssuedKey : IDisposable
{
    private const string DocumentSigning = "1.3.6.1.5.5.7.3.36";

    private readonly Authority root;
    private readonly ECDsa own = ECDsa.Create(ECCurve.NamedCurves.nistP256);
    private readonly string key;
    private readonly string chain;

    public IssuedKey(Product shop)
    {
        var now = TimeProvider.System.GetUtcNow();
        root = Authority.Root("CN=Example Root", now.AddDays(-2), now.AddYears(3));
        using var certificate = root.Issue("CN=Alder Reach Parks Trust", own, purpose: DocumentSigning);
        key = shop.Write("issued-key.pem", Encoding.ASCII.GetBytes(own.ExportPkcs8PrivateKeyPem() + "\n"));
        if (!OperatingSystem.IsWindows())
        {
            File.SetUnixFileMode(key, UnixFileMode.UserRead | UnixFileMode.UserWrite);
        }

        Certificate = shop.Write(
            "issued.pem",
            Encoding.ASCII.GetBytes(certificate.ExportCertificatePem() + "\n")
        );
        chain = shop.Write(
            "issued-chain.pem",
            Encoding.ASCII.GetBytes(
                certificate.ExportCertificatePem() + "\n" + root.Certificate.ExportCertificatePem() + "\n"
            )
        );
    }

    public string Certificate { get; }

    public string[] Options => ["--key", key, "--chain", chain];

    public void Dispose()
    {
        root.Dispose();
        own.Dispose();
    }
}
