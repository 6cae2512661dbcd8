using System.Buffers.Binary;
using System.Globalization;
using System.Text;
using ServiceRules.Evidence.Log;
using ServiceRules.TestKit;

namespace ServiceRules.Evidence.Tests.Log;

/// <summary>Signatures of log and witness, checked by OpenSSL: nobody needs this product to trust them.</summary>
public sealed class OpensslAgreementTests : IDisposable
{
    private readonly SampleLog _log = new();
    private readonly string _folder = Directory.CreateTempSubdirectory("evidence-tests-").FullName;

    public void Dispose()
    {
        _log.Dispose();
        Directory.Delete(_folder, recursive: true);
    }

    private string Write(string name, byte[] content)
    {
        var path = Path.Combine(_folder, name);
        File.WriteAllBytes(path, content);
        return path;
    }

    [SkippableTheory]
    [InlineData(false)]
    [InlineData(true)]
    public void Checkpoint_SignatureOfTheLog_VerifiesOverItsTextAlone(bool isChanged)
    {
        var openssl = Tool.Require("openssl");
        var signed = _log.Signed(41);
        var text = signed.Note.Text;

        var said = openssl.Run(
            "dgst",
            "-sha256",
            "-verify",
            Write("log-key.pem", Bytes.Of(_log.Key.ToPem())),
            "-signature",
            Write("checkpoint.sig", signed.Note.Signatures.Single().ToBytes()),
            Write(
                "checkpoint.txt",
                Bytes.Of(isChanged ? text.Replace("41", "42", StringComparison.Ordinal) : text)
            )
        );

        Assert.True((said.ExitCode == 0) == !isChanged, said.ToString());
    }

    [SkippableTheory]
    [InlineData(1_790_000_000, true)]
    [InlineData(1_790_000_001, false)]
    public void Checkpoint_CosignatureOfAWitness_VerifiesOverTimeAndText(long claimed, bool holds)
    {
        var openssl = Tool.Require("openssl");
        var witness = WitnessKey.Of(
            "witness.example/w1",
            Encoding.ASCII.GetBytes("a secret of thirty-two bytes : )")
        );
        var cosignature = witness.Cosign(_log.Head(41), DateTimeOffset.FromUnixTimeSeconds(1_790_000_000));
        var message =
            $"cosignature/v1\ntime {claimed.ToString(CultureInfo.InvariantCulture)}\n{_log.Head(41).Text}";

        var said = openssl.Run(
            "pkeyutl",
            "-verify",
            "-pubin",
            "-rawin",
            "-inkey",
            Write("witness.pem", Bytes.Of(witness.Key.ToPem())),
            "-sigfile",
            Write("cosignature.sig", cosignature.ToBytes()[8..]),
            "-in",
            Write("message.txt", Bytes.Of(message))
        );

        Assert.True((said.ExitCode == 0) == holds, said.ToString());
    }

    /// <summary>A witness with another program can sign any time; what no calendar has is refused without failing.</summary>
    [SkippableTheory]
    [InlineData(1_790_000_000, true)]
    [InlineData(253_402_300_800, false)]
    [InlineData(long.MaxValue, false)]
    public void Checkpoint_CosignatureMadeByOpenssl_IsTrustedWithinTheCalendar(long seconds, bool holds)
    {
        var openssl = Tool.Require("openssl");
        var witness = WitnessKey.Of("witness.example/w1", new byte[32]);
        var message =
            $"cosignature/v1\ntime {seconds.ToString(CultureInfo.InvariantCulture)}\n{_log.Head(41).Text}";
        var path = Path.Combine(_folder, "made.sig");
        var said = openssl.Run(
            "pkeyutl",
            "-sign",
            "-rawin",
            "-inkey",
            Write("witness.pem", Bytes.Of(witness.ToPem())),
            "-in",
            Write("message.txt", Bytes.Of(message)),
            "-out",
            path
        );
        Assert.True(said.ExitCode == 0, said.ToString());
        var time = new byte[8];
        BinaryPrimitives.WriteInt64BigEndian(time, seconds);
        byte[] signature =
        [
            .. Convert.FromHexString(witness.Key.IdText),
            .. time,
            .. File.ReadAllBytes(path),
        ];

        var note = Bytes.Note(
            $"{_log.Head(41).Text}\n— {witness.Key.Name} {Convert.ToBase64String(signature)}\n"
        );

        Assert.Equal(holds, note.Verify([witness.Key]).IsTrusted);
    }

    [SkippableFact]
    public void WitnessKey_PrivateKey_IsReadByOpensslWithTheSamePublicKey()
    {
        var openssl = Tool.Require("openssl");
        var witness = WitnessKey.Of("w", new byte[32]);

        var said = openssl.Run("pkey", "-pubout", "-in", Write("w.pem", Bytes.Of(witness.ToPem())));

        Assert.True(said.ExitCode == 0, said.ToString());
        Assert.Equal(witness.Key.ToPem(), said.StandardOutput);
    }

    [SkippableFact]
    public void WitnessKey_MadeByOpenssl_IsRead()
    {
        var openssl = Tool.Require("openssl");
        var path = Path.Combine(_folder, "made.pem");
        var said = openssl.Run("genpkey", "-algorithm", "ed25519", "-out", path);
        Assert.True(said.ExitCode == 0, said.ToString());

        Assert.True(
            WitnessKey.TryFromPem("w", File.ReadAllText(path), out _, out var fault),
            fault?.ToString()
        );
    }
}
