using System.Security.Cryptography;

namespace ServiceRules.Reporting.Signing;

/// <summary>One block between BEGIN and END (RFC 7468), decoded.</summary>
internal sealed record PemBlock(string Label, ReadOnlyMemory<byte> Content)
{
    public const string PlainKey = "PRIVATE KEY";
    public const string EncryptedKey = "ENCRYPTED PRIVATE KEY";
    public const string CurveKey = "EC PRIVATE KEY";
    private const string Certificate = "CERTIFICATE";

    // What the usual tools write before a curve key; the key names its curve itself.
    private const string CurveName = "EC PARAMETERS";

    public bool IsPrivateKey => Label.EndsWith(PlainKey, StringComparison.Ordinal);

    public bool IsCertificate => Label == Certificate;

    /// <summary>Adds the blocks of a file to those there are; null, or what is wrong with the file.</summary>
    public static string? ReadAll(ReadOnlySpan<char> text, ICollection<PemBlock> blocks)
    {
        var broken = IsEncryptedInTheOldWay(text) ? OldWay : Broken;
        while (PemEncoding.TryFind(text, out var fields))
        {
            if (text[..fields.Location.Start].Contains("-----BEGIN", StringComparison.Ordinal))
            {
                return broken;
            }
            var block = new PemBlock(
                text[fields.Label].ToString(),
                Convert.FromBase64String(text[fields.Base64Data].ToString())
            );
            if (!block.IsPrivateKey && !block.IsCertificate && block.Label != CurveName)
            {
                return $"found a block `{block.Label}` in PEM; accepted: one private key, certificates";
            }
            blocks.Add(block);
            text = text[fields.Location.End..];
        }
        return text.Contains("-----BEGIN", StringComparison.Ordinal) ? broken : null;
    }

    /// <summary>Whether a key is encrypted by headers in its block, which PKCS#8 has replaced.</summary>
    public static bool IsEncryptedInTheOldWay(ReadOnlySpan<char> text) =>
        text.Contains("Proc-Type: 4,ENCRYPTED", StringComparison.Ordinal);

    private const string OldWay =
        "the key is encrypted in the old way (`Proc-Type: 4,ENCRYPTED`); accepted: encrypted PKCS#8, which `openssl pkcs8 "
        + "-topk8 -in OLD.pem -out NEW.pem` makes of it";

    private const string Broken = "a block is not well-formed PEM; accepted: PKCS#8 and X.509 in PEM";
}
