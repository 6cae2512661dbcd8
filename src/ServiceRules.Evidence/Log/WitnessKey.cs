using System.Diagnostics.CodeAnalysis;
using System.Security.Cryptography;

namespace ServiceRules.Evidence.Log;

/// <summary>The private key of a witness: Ed25519, used for cosignatures and nothing else.</summary>
public sealed class WitnessKey
{
    /// <summary>Bytes of the secret that a key is made from.</summary>
    public const int SecretBytes = Ed25519.SeedBytes;

    private const string Label = "PRIVATE KEY";

    private readonly byte[] _seed;

    private WitnessKey(string name, byte[] seed)
    {
        _seed = seed;
        Key = NoteKey.OfWitness(name, Ed25519.PublicKeyOf(seed));
    }

    /// <summary>What its cosignatures are checked with; to be given to everyone.</summary>
    public NoteKey Key { get; }

    /// <summary>Makes a key from a secret: 32 bytes that nobody can guess.</summary>
    /// <param name="name">Name of the witness: see <see cref="NoteKey.IsName"/>.</param>
    /// <param name="secret">From a random source fit for keys; there is none down here.</param>
    /// <exception cref="ArgumentException">The name is none, or the secret has another length.</exception>
    public static WitnessKey Of(string name, ReadOnlySpan<byte> secret)
    {
        ArgumentOutOfRangeException.ThrowIfNotEqual(secret.Length, SecretBytes, nameof(secret));
        return new WitnessKey(name, secret.ToArray());
    }

    /// <summary>Reads a private key in PEM (PKCS#8, RFC 8410).</summary>
    /// <param name="name">Name of the witness.</param>
    /// <param name="pem">The PEM text.</param>
    /// <param name="key">The key.</param>
    /// <param name="fault">What is wrong with it; the secret is never quoted.</param>
    public static bool TryFromPem(
        string name,
        string pem,
        [NotNullWhen(true)] out WitnessKey? key,
        [NotNullWhen(false)] out LogTextFault? fault
    )
    {
        var seed =
            NoteKey.IsName(name)
            && PemEncoding.TryFind(pem, out var fields)
            && pem.AsSpan()[fields.Label] is Label
            && Base64Text.TryDecode(pem[fields.Base64Data].ReplaceLineEndings(""), out var pkcs8)
                ? Ed25519.SeedOf(pkcs8)
                : null;
        key = seed is null ? null : new WitnessKey(name, seed);
        fault = key is null
            ? new LogTextFault(1, "no private key of a witness", "a private key of Ed25519 in PEM (PKCS#8)")
            : null;
        return key is not null;
    }

    /// <summary>The private key in PEM (PKCS#8, RFC 8410), as OpenSSL reads it. A secret.</summary>
    public string ToPem() => PemEncoding.WriteString(Label, Ed25519.ToPkcs8(_seed)) + "\n";

    /// <summary>
    /// Cosigns: says that this is the largest head of the log that the witness has seen up to now. Only for what
    /// <see cref="Witness.Consider"/> accepted, and given to nobody before it is stored.
    /// </summary>
    /// <param name="checkpoint">The head.</param>
    /// <param name="at">The witness's clock; fractions of a second are dropped.</param>
    public NoteSignature Cosign(Checkpoint checkpoint, DateTimeOffset at) =>
        NoteSignature.Of(Key, Cosignature.Make(_seed, checkpoint.Text, at));
}
