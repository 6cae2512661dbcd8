using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using System.Text;
using ServiceRules.Reporting.Revocation;
using ServiceRules.Reporting.Signing;
using ServiceRules.Reporting.Tests.Signing;
using ServiceRules.TestKit;

namespace ServiceRules.Reporting.Tests.Revocation;

public sealed class RevocationListTests : IDisposable
{
    private static readonly DateTimeOffset At = SampleReport.IssuedAt;

    private readonly Scratch _scratch = new();
    private readonly X509Certificate2 _old = SigningKeyMaking.SelfSigned(
        "Alder Reach Parks Trust",
        At.AddDays(-9)
    );
    private readonly X509Certificate2 _new = SigningKeyMaking.SelfSigned("Alder Reach Parks Trust", At);

    public void Dispose()
    {
        _scratch.Dispose();
        _old.Dispose();
        _new.Dispose();
    }

    private RevocationList Revoke(
        X509RevocationReason reason,
        DateTimeOffset from,
        RevocationList? earlier = null,
        DateTimeOffset? at = null
    )
    {
        var (list, fault) = KeyRevocation.Revoke(
            earlier,
            RemoteSigner.Of(_new),
            _old,
            reason,
            from,
            at ?? At.AddDays(1)
        );
        Assert.Null(fault);
        return list!;
    }

    private string Refusal(X509Certificate2 revoked, DateTimeOffset from, RevocationList? earlier = null)
    {
        var (list, fault) = KeyRevocation.Revoke(
            earlier,
            RemoteSigner.Of(_new),
            revoked,
            X509RevocationReason.Superseded,
            from,
            At.AddDays(1)
        );
        Assert.Null(list);
        Assert.Contains("accepted: ", fault, StringComparison.Ordinal);
        return fault!;
    }

    [SkippableFact]
    public void Openssl_ListMadeHere_IsReadAndItsSignatureHolds()
    {
        var openssl = Tool.Require("openssl");
        var file = _scratch.Write(
            "list.pem",
            Encoding.ASCII.GetBytes(Revoke(X509RevocationReason.KeyCompromise, At.AddDays(-1)).Pem)
        );
        var signer = _scratch.Write("new.pem", Encoding.ASCII.GetBytes(_new.ExportCertificatePem()));
        var other = _scratch.Write("old.pem", Encoding.ASCII.GetBytes(_old.ExportCertificatePem()));

        var said = openssl.Run("crl", "-in", file, "-noout", "-text");
        var holds = openssl.Run("crl", "-in", file, "-noout", "-CAfile", signer);
        var byOther = openssl.Run("crl", "-in", file, "-noout", "-CAfile", other);

        Assert.Contains("Key Compromise", said.StandardOutput, StringComparison.Ordinal);
        Assert.Contains(
            "Revocation Date: Mar  1 06:45:10 2026 GMT",
            said.StandardOutput,
            StringComparison.Ordinal
        );
        Assert.Contains(_old.SerialNumber.TrimStart('0'), said.StandardOutput, StringComparison.Ordinal);
        Assert.Contains("verify OK", holds.StandardError, StringComparison.Ordinal);
        Assert.DoesNotContain("verify OK", byOther.StandardError, StringComparison.Ordinal);
    }

    // A list that OpenSSL makes for a certificate authority, as organisations with one hand out.
    [SkippableTheory]
    [InlineData("", true)]
    [InlineData("crl_extensions = part", false)]
    public void Read_ListMadeByOpenssl_TellsItsEntries(string extensions, bool isWhole)
    {
        using var root = Authority.Root("CN=root", At.AddYears(-1), At.AddYears(9));
        var key = root.Certificate.GetECDsaPrivateKey()!.ExportPkcs8PrivateKeyPem();
        _scratch.Write("root.pem", Encoding.ASCII.GetBytes(root.Certificate.ExportCertificatePem()));
        _scratch.Write("root.key", Encoding.ASCII.GetBytes(key));
        _scratch.Write(
            "index.txt",
            "R\t350101000000Z\t260301064510Z,keyCompromise\t00F1\tunknown\t/CN=x\n"u8
        );
        _scratch.Write("number", "07\n"u8);
        var config = $"""
            [ca]
            default_ca = own
            [own]
            database = {_scratch.At("index.txt")}
            crlnumber = {_scratch.At("number")}
            default_md = sha256
            {extensions}
            [part]
            issuingDistributionPoint = critical, @scope
            [scope]
            onlyuser = TRUE
            """;
        var made = Tool.Require("openssl")
            .Run(
                "ca",
                "-gencrl",
                "-config",
                _scratch.Write("ca.cnf", Encoding.ASCII.GetBytes(config)),
                "-keyfile",
                _scratch.At("root.key"),
                "-cert",
                _scratch.At("root.pem"),
                "-crldays",
                "30",
                "-out",
                _scratch.At("list.pem")
            );
        Assert.True(made.ExitCode == 0, made.ToString());

        var (list, fault) = RevocationList.Read(File.ReadAllBytes(_scratch.At("list.pem")));

        if (!isWhole)
        {
            Assert.Contains("2.5.29.28", fault, StringComparison.Ordinal);
            return;
        }
        Assert.Null(fault);
        var entry = Assert.Single(list!.Entries);
        Assert.Equal("00F1", entry.Serial);
        Assert.Equal(X509RevocationReason.KeyCompromise, entry.Reason);
        Assert.Equal(At.AddDays(-1), entry.From);
        Assert.Equal("CN=root", list.Issuer.Name);
        Assert.True(list.IsSignedBy(root.Certificate));
        Assert.False(list.IsSignedBy(_new));
    }

    [Fact]
    public void Read_WhatIsNoList_IsRefusedWithoutAnException()
    {
        byte[][] files =
        [
            [],
            [0x30],
            "-----BEGIN X509 CRL-----\nAAAA\n-----END X509 CRL-----\n"u8.ToArray(),
            Encoding.ASCII.GetBytes(_old.ExportCertificatePem()),
            _old.RawData,
        ];

        Assert.All(
            files,
            file =>
                Assert.Contains(
                    "accepted: one X.509 list",
                    RevocationList.Read(file).Fault,
                    StringComparison.Ordinal
                )
        );
    }

    [Fact]
    public void Read_ListWithAnyByteChanged_IsRefusedOrNotSigned()
    {
        var whole = Revoke(X509RevocationReason.Superseded, At).Encoded.ToArray();
        for (var at = 0; at < whole.Length; at++)
        {
            byte[] changed = [.. whole];
            changed[at] ^= (byte)(1 << (at % 8));
            var (list, _) = RevocationList.Read(changed);
            Assert.True(list?.IsSignedBy(_new) is not true, $"byte {at} changed unseen");
        }
    }

    [Fact]
    public void Revoke_OneAfterAnother_KeepsAllAndCountsUp()
    {
        using var older = SigningKeyMaking.SelfSigned("Alder Reach Parks Trust", At.AddDays(-20));
        var first = Revoke(X509RevocationReason.Superseded, At);

        var (second, _) = KeyRevocation.Revoke(
            first,
            RemoteSigner.Of(_new),
            older,
            X509RevocationReason.CessationOfOperation,
            At,
            At.AddDays(2)
        );

        Assert.Equal(first.Number + 1, second!.Number);
        Assert.Equal(["superseded", "cessation"], second.Entries.Select(entry => entry.ReasonTold));
        Assert.Equal(At.AddDays(2), second.ThisUpdate);
    }

    [Fact]
    public void Revoke_Again_OnlyMakesItWorse()
    {
        var first = Revoke(X509RevocationReason.Superseded, At);

        Assert.Contains("revoked already", Refusal(_old, At.AddHours(1), first), StringComparison.Ordinal);
        var earlier = Revoke(X509RevocationReason.Superseded, At.AddHours(-1), first);
        var worse = Revoke(X509RevocationReason.KeyCompromise, At.AddHours(2), earlier);
        Assert.Contains("(key-compromise)", Refusal(_old, At.AddDays(-5), worse), StringComparison.Ordinal);
        Assert.Single(worse.Entries);
    }

    [Fact]
    public void Revoke_WhatThisKeyCannotRevoke_IsRefused()
    {
        using var other = SigningKeyMaking.SelfSigned("Somebody else", At);

        Assert.Contains("`keys rotate` first", Refusal(_new, At), StringComparison.Ordinal);
        Assert.Contains("only the issuer", Refusal(other, At), StringComparison.Ordinal);
        Assert.Contains("still to come", Refusal(_old, At.AddDays(3)), StringComparison.Ordinal);
    }

    [Fact]
    public void Revoke_KeyThatMayNotSignLists_IsRefused()
    {
        using var key = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        var request = new CertificateRequest(_new.SubjectName, key, HashAlgorithmName.SHA256);
        request.CertificateExtensions.Add(
            new X509KeyUsageExtension(X509KeyUsageFlags.DigitalSignature, true)
        );
        using var plain = request.CreateSelfSigned(At, At.AddDays(9));

        var (list, fault) = KeyRevocation.Revoke(
            null,
            RemoteSigner.Of(plain),
            _old,
            X509RevocationReason.Superseded,
            At,
            At.AddDays(1)
        );

        Assert.Null(list);
        Assert.Contains("cRLSign", fault, StringComparison.Ordinal);
    }
}
