using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;

namespace ServiceRules.TestKit;

/// <summary>A time-stamp authority that OpenSSL runs: answers to questions, by a key and chain made here.</summary>
public sealed class StampingDesk : IDisposable
{
    private const string TimestampPurpose = "1.3.6.1.5.5.7.3.8";

    private readonly string _folder = Directory.CreateTempSubdirectory("servicerules-stamping-").FullName;
    private readonly Tool _openssl = Tool.Require("openssl");
    private readonly bool _sendsChain;
    private int _asked;

    public StampingDesk(
        DateTimeOffset? from = null,
        DateTimeOffset? to = null,
        AsymmetricAlgorithm? key = null,
        bool sendsChain = true
    )
    {
        _sendsChain = sendsChain;
        var now = TimeProvider.System.GetUtcNow();
        Root = Authority.Root("CN=time root", now.AddYears(-3), now.AddYears(3));
        using var own = key ?? ECDsa.Create(ECCurve.NamedCurves.nistP256);
        Certificate = Root.Issue(
            "CN=time desk,O=Alder Reach Parks Trust",
            own,
            X509KeyUsageFlags.DigitalSignature,
            TimestampPurpose,
            from ?? now.AddYears(-2),
            to ?? now.AddYears(2)
        );
        Write("desk.pem", Certificate.ExportCertificatePem());
        Write("desk.key", own.ExportPkcs8PrivateKeyPem());
        Write("chain.pem", Root.Certificate.ExportCertificatePem());
        Write("serial", "01");
        Write(
            "desk.cnf",
            $"""
            [desk]
            serial = {At("serial")}
            signer_digest = sha256
            default_policy = 1.2.3.4.1
            digests = sha256, sha384
            accuracy = secs:1
            ess_cert_id_alg = sha256
            """
        );
    }

    public Authority Root { get; }

    public X509Certificate2 Certificate { get; }

    /// <summary>The answer to a question, both as RFC 3161 has them.</summary>
    public byte[] Answer(byte[] query)
    {
        var number = Interlocked.Increment(ref _asked);
        var (question, answer) = (Write($"{number}.tsq", query), At($"{number}.tsr"));
        var said = _openssl.Run([
            "ts",
            "-reply",
            "-config",
            At("desk.cnf"),
            "-section",
            "desk",
            "-queryfile",
            question,
            "-signer",
            At("desk.pem"),
            "-inkey",
            At("desk.key"),
            .. _sendsChain ? ["-chain", At("chain.pem")] : (string[])[],
            "-out",
            answer,
        ]);
        return said.ExitCode == 0
            ? File.ReadAllBytes(answer)
            : throw new InvalidOperationException(said.ToString());
    }

    /// <summary>Whether OpenSSL finds that the token stamps these very bytes.</summary>
    public ToolOutcome Check(byte[] token, byte[] stamped) =>
        _openssl.Run(
            "ts",
            "-verify",
            "-data",
            Write("stamped.bin", stamped),
            "-in",
            Write("token.der", token),
            "-token_in",
            "-CAfile",
            At("chain.pem"),
            "-untrusted",
            At("desk.pem")
        );

    public void Dispose()
    {
        Certificate.Dispose();
        Root.Dispose();
        Directory.Delete(_folder, recursive: true);
    }

    private void Write(string name, string text) =>
        _ = Write(name, System.Text.Encoding.ASCII.GetBytes(text + "\n"));

    private string Write(string name, byte[] content)
    {
        File.WriteAllBytes(At(name), content);
        return At(name);
    }

    private string At(string name) => Path.Combine(_folder, name);
}
