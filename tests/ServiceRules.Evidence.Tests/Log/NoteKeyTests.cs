using System.Security.Cryptography;
using System.Text.Json;
using ServiceRules.Evidence.Log;

namespace ServiceRules.Evidence.Tests.Log;

public sealed class NoteKeyTests
{
    private static readonly JsonElement Vector = MerkleVectors.Read("witness-vector.json");

    [Theory]
    [InlineData("log_key")]
    [InlineData("witness_key_type_1")]
    [InlineData("witness_key")]
    public void TryParse_PublishedKey_IsReadAndWrittenBack(string member)
    {
        var text = Vector.GetProperty(member).GetString()!;

        Assert.Equal(text, Bytes.Key(text).ToString());
    }

    [Fact]
    public void TryParse_OwnKey_IsReadAndWrittenBack()
    {
        using var log = new SampleLog();

        var read = Bytes.Key(log.Key.ToString());

        Assert.Equal(log.Key, read);
        Assert.Equal(NoteAlgorithm.EcdsaP256, read.Algorithm);
    }

    [Fact]
    public void Id_OfEcdsa_IsTheHashOfThePublicKeyAlone()
    {
        using var key = ECDsa.Create(ECCurve.NamedCurves.nistP256);
        var expected = Convert.ToHexStringLower(SHA256.HashData(key.ExportSubjectPublicKeyInfo()))[..8];

        Assert.Equal(expected, new EcdsaLogSigner("a.example", key).Key.IdText);
        Assert.Equal(expected, new EcdsaLogSigner("b.example", key).Key.IdText);
    }

    [Fact]
    public void ToPem_OfALogKey_IsReadBackUnderItsName()
    {
        using var log = new SampleLog();

        Assert.True(
            NoteKey.TryFromPem(SampleLog.Origin, log.Key.ToPem(), out var read, out var fault),
            fault?.ToString()
        );

        Assert.Equal(log.Key, read);
    }

    [Fact]
    public void TryFromPem_OtherCurve_IsRefused()
    {
        using var key = ECDsa.Create(ECCurve.NamedCurves.nistP384);

        Assert.False(NoteKey.TryFromPem("a", key.ExportSubjectPublicKeyInfoPem(), out _, out var fault));
        Assert.Contains("P-256", fault!.Accepted, StringComparison.Ordinal);
        Assert.Throws<ArgumentException>(() => new EcdsaLogSigner("a", key));
    }

    /// <summary>The key's id is a hash of its bytes: a second spelling would be a second id of one key.</summary>
    [Fact]
    public void TryFromSpki_BytesBehindTheKey_AreRefused()
    {
        using var key = ECDsa.Create(ECCurve.NamedCurves.nistP256);

        Assert.False(NoteKey.TryFromSpki("a", [.. key.ExportSubjectPublicKeyInfo(), 0], out _, out _));
    }

    [Theory]
    [InlineData("")]
    [InlineData("-----BEGIN PUBLIC KEY-----\nAAAA\n-----END PUBLIC KEY-----\n")]
    [InlineData("-----BEGIN PUBLIC KEY-----\n-----END PUBLIC KEY-----\n")]
    [InlineData("-----BEGIN CERTIFICATE-----\nAAAA\n-----END CERTIFICATE-----\n")]
    public void TryFromPem_WhatIsNoKey_IsRefused(string pem) =>
        Assert.False(NoteKey.TryFromPem("a", pem, out _, out _));

    [Theory]
    [InlineData("")]
    [InlineData("monkeys")]
    [InlineData("monkeys+db4d9f7e")]
    [InlineData("+db4d9f7e+AULaJMvTtDLHPUcUrjdDad9vDlh/PTfC2VV60JUtCfWT")]
    [InlineData("mon keys+db4d9f7e+AULaJMvTtDLHPUcUrjdDad9vDlh/PTfC2VV60JUtCfWT")]
    [InlineData("monkeyz+db4d9f7e+AULaJMvTtDLHPUcUrjdDad9vDlh/PTfC2VV60JUtCfWT")]
    [InlineData("monkeys+DB4D9F7E+AULaJMvTtDLHPUcUrjdDad9vDlh/PTfC2VV60JUtCfWT")]
    [InlineData("monkeys+db4d9f7f+AULaJMvTtDLHPUcUrjdDad9vDlh/PTfC2VV60JUtCfWT")]
    [InlineData("monkeys+db4d9f7e+BULaJMvTtDLHPUcUrjdDad9vDlh/PTfC2VV60JUtCfWT")]
    [InlineData("monkeys+db4d9f7e+AkLaJMvTtDLHPUcUrjdDad9vDlh/PTfC2VV60JUtCfWT")]
    [InlineData("monkeys+db4d9f7e+AULaJMvTtDLHPUcUrjdDad9vDlh/PTfC2VV60JUtCfW")]
    [InlineData("monkeys+db4d9f7e+AULaJMvTtDLHPUcUrjdDad9vDlh/PTfC2VV60JUtCfWT\n")]
    [InlineData("monkeys+db4d9f7e+")]
    public void TryParse_AnyOtherText_IsRefusedWithAReason(string text)
    {
        Assert.False(NoteKey.TryParse(text, out var key, out var fault));

        Assert.Null(key);
        Assert.NotEmpty(fault!.Accepted);
    }

    /// <summary>A point of small order verifies signatures that nobody made: RFC 8032 section 8.9 and 5.1.7.</summary>
    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    public void TryParse_Ed25519PointOfSmallOrder_IsRefused(byte first)
    {
        byte[] value = [first, .. new byte[31]];
        byte[] typed = [4, .. value];
        var id = Convert.ToHexStringLower(SHA256.HashData([.. "w\n"u8, .. typed]))[..8];

        Assert.False(NoteKey.TryParse($"w+{id}+{Convert.ToBase64String(typed)}", out _, out var fault));
        Assert.Contains("cannot be used", fault!.Found, StringComparison.Ordinal);
    }

    /// <summary>As `ledger key` and `ledger key --note` print it, and as it comes out of a mail.</summary>
    [Fact]
    public void TryRead_VerifierKeyOrPem_IsTheSameKey()
    {
        using var log = new SampleLog();
        foreach (
            var text in new[]
            {
                $"{log.Key}\n",
                $" {log.Key}\r\n",
                log.Key.ToPem(),
                "of the log:\n" + log.Key.ToPem(),
            }
        )
        {
            Assert.True(
                NoteKey.TryRead(SampleLog.Origin, text, out var key, out var fault),
                fault?.ToString()
            );
            Assert.Equal(log.Key, key);
        }
    }

    [Fact]
    public void TryRead_WhatIsNeither_TellsBothForms()
    {
        Assert.False(NoteKey.TryRead("a", "no key", out _, out var fault));

        Assert.Equal("`no key`", fault.Found);
        Assert.Contains("a verifier key on one line", fault.Accepted, StringComparison.Ordinal);
        Assert.Contains("in PEM", fault.Accepted, StringComparison.Ordinal);
    }
}
