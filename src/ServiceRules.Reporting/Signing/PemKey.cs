using System.Diagnostics.CodeAnalysis;
using System.Security.Cryptography;
using System.Security.Cryptography.Pkcs;
using System.Security.Cryptography.X509Certificates;

namespace ServiceRules.Reporting.Signing;

/// <summary>A signing key brought along in PEM: one private key, its certificate and its issuers, in any order.</summary>
public static class PemKey
{
    /// <summary>A key with a long chain is some kilobytes.</summary>
    public const int BytesMax = 64 * 1024;

    /// <summary>Whether a text in PEM holds a key that takes a password.</summary>
    public static bool IsEncrypted(string text) =>
        text.Contains(PemBlock.EncryptedKey, StringComparison.Ordinal)
        || PemBlock.IsEncryptedInTheOldWay(text);

    private const string CurveKey = "1.2.840.10045.2.1";

    /// <summary>Opens the key that the files hold together.</summary>
    /// <param name="files">One file with everything, or the key here and the certificates there.</param>
    /// <param name="password">For a key in encrypted PKCS#8, else null.</param>
    public static SigningKeyOutcome Open(IReadOnlyList<PemText> files, string? password, DateTimeOffset at) =>
        Open(files, password, at, string.Join(" with ", files.Select(file => $"`{file.Name}`")), false);

    [SuppressMessage("Reliability", "CA2000", Justification = "The certificates pass to the key.")]
    internal static SigningKeyOutcome Open(
        IReadOnlyList<PemText> files,
        string? password,
        DateTimeOffset at,
        string where,
        bool created
    )
    {
        var blocks = new List<PemBlock>();
        foreach (var file in files)
        {
            if (PemBlock.ReadAll(file.Content, blocks) is { } broken)
            {
                return new SigningKeyOutcome.Refused($"`{file.Name}`: {broken}");
            }
        }
        var keys = blocks.Where(block => block.IsPrivateKey).ToList();
        if (keys.Count != 1)
        {
            return new SigningKeyOutcome.Refused(
                $"{where}: found {keys.Count} private keys in PEM; accepted: exactly one, with its certificate"
            );
        }
        var certificates = new List<X509Certificate2>();
        try
        {
            using var key = ReadKey(keys[0], password);
            certificates.AddRange(blocks.Where(block => block.IsCertificate).Select(ReadCertificate));
            return Join(key, certificates, at, where, created);
        }
        catch (CryptographicException problem)
        {
            certificates.ForEach(one => one.Dispose());
            return new SigningKeyOutcome.Refused($"{where}: {problem.Message}");
        }
    }

    private static SigningKeyOutcome Join(
        ECDsa key,
        List<X509Certificate2> certificates,
        DateTimeOffset at,
        string where,
        bool created
    )
    {
        var held = key.ExportSubjectPublicKeyInfo();
        var own = certificates
            .Where(one => one.PublicKey.ExportSubjectPublicKeyInfo().AsSpan().SequenceEqual(held))
            .ToList();
        if (own.Count != 1)
        {
            var found =
                certificates.Count == 0 ? "no certificate at all"
                : own.Count == 0
                    ? $"certificates of other keys: {string.Join(", ", certificates.Select(one => $"`{one.Subject}`"))}"
                : $"{own.Count} certificates of it";
            throw new CryptographicException(
                $"found {found}; accepted: the one certificate that belongs to the private key"
            );
        }
        var others = certificates.Except(own).ToList();
        using var bare = own[0];
        if (SigningKeyFitness.PublicFault(bare, at) is { } fault)
        {
            throw new CryptographicException(fault);
        }
        return SigningKey.Admit(bare.CopyWithPrivateKey(key), others, at, where, created);
    }

    private static ECDsa ReadKey(PemBlock block, string? password)
    {
        if (block.Label == PemBlock.CurveKey)
        {
            return Import(key => key.ImportECPrivateKey(block.Content.Span, out _));
        }
        if (block.Label == PemBlock.EncryptedKey && password is null)
        {
            throw new CryptographicException(
                "the private key is encrypted; accepted: its password in a file"
            );
        }
        if (block.Label is not (PemBlock.PlainKey or PemBlock.EncryptedKey))
        {
            throw new CryptographicException(
                $"found a block `{block.Label}`; accepted: an ECDSA key on curve P-256"
            );
        }
        var unpacked = Unpack(block, password);
        return unpacked.AlgorithmId.Value == CurveKey
            ? Import(key => key.ImportPkcs8PrivateKey(unpacked.Encode(), out _))
            : throw new CryptographicException(
                $"the key is {unpacked.AlgorithmId.FriendlyName ?? unpacked.AlgorithmId.Value}; accepted: ECDSA on curve "
                    + "P-256, the one kind that reports are signed with"
            );
    }

    private static Pkcs8PrivateKeyInfo Unpack(PemBlock block, string? password)
    {
        var isPlain = block.Label == PemBlock.PlainKey;
        try
        {
            return isPlain
                ? Pkcs8PrivateKeyInfo.Decode(block.Content, out _)
                : Pkcs8PrivateKeyInfo.DecryptAndDecode(password, block.Content, out _);
        }
        catch (CryptographicException)
        {
            throw new CryptographicException(
                isPlain
                    ? "the private key is damaged; accepted: PKCS#8 in PEM"
                    : "the private key cannot be decrypted: wrong password, or not PKCS#8; accepted: its password on the "
                        + "first line of the file"
            );
        }
    }

    private static ECDsa Import(Action<ECDsa> import)
    {
        var key = ECDsa.Create();
        try
        {
            import(key);
            return key;
        }
        catch (CryptographicException)
        {
            key.Dispose();
            throw new CryptographicException(
                "the private key is damaged, or on a curve unknown here; accepted: curve P-256"
            );
        }
    }

    private static X509Certificate2 ReadCertificate(PemBlock block)
    {
        try
        {
            return X509CertificateLoader.LoadCertificate(block.Content.Span);
        }
        catch (CryptographicException)
        {
            throw new CryptographicException(
                "a block `CERTIFICATE` holds something else; accepted: X.509 certificates in PEM"
            );
        }
    }
}
