using System.Buffers.Binary;
using System.Diagnostics.CodeAnalysis;
using System.Globalization;
using System.Security.Cryptography;

namespace ServiceRules.Evidence.Log;

/// <summary>
/// A key that signatures of notes are checked with: name, algorithm and public value. Its text form is the verifier key
/// of C2SP signed-note: name, <c>+</c>, the key's id in 8 hexadecimal digits, <c>+</c>, base64 of type and value.
/// </summary>
public sealed record NoteKey
{
    /// <summary>What <see cref="TryParse"/> reads, for error texts.</summary>
    public const string AcceptedForm =
        "a verifier key on one line: name, `+`, 8 lower-case hexadecimal digits, `+`, base64 of type and public key";

    private const string PemBegin = "-----BEGIN";

    private const string AcceptedName = "a name without spaces, `+` and control characters";

    // Type byte and value in base64: byte arrays would compare by reference.
    private readonly string _base64;

    private NoteKey(string name, NoteAlgorithm algorithm, byte[] value)
    {
        (Name, Algorithm) = (name, algorithm);
        _base64 = Convert.ToBase64String([(byte)algorithm, .. value]);
        Id = IdOf(name, algorithm, value);
    }

    /// <summary>Name of the key: for a log its origin.</summary>
    public string Name { get; }

    /// <summary>How it signs.</summary>
    public NoteAlgorithm Algorithm { get; }

    /// <summary>First four bytes of a hash over name and value, as signature lines carry them.</summary>
    public uint Id { get; }

    /// <summary>The id as eight hexadecimal digits.</summary>
    public string IdText => Id.ToString("x8", CultureInfo.InvariantCulture);

    /// <summary>
    /// The public key as SubjectPublicKeyInfo in PEM, for tools that know no verifier keys; ends in a newline.
    /// </summary>
    public string ToPem() =>
        PemEncoding.WriteString(
            "PUBLIC KEY",
            Algorithm is NoteAlgorithm.EcdsaP256 ? Value() : Ed25519.ToSpki(Value())
        ) + "\n";

    /// <summary>Whether a text can name a key.</summary>
    public static bool IsName(string name) =>
        LogText.IsLine(name) && !name.Contains('+', StringComparison.Ordinal) && !name.Any(char.IsWhiteSpace);

    /// <summary>Reads a verifier key.</summary>
    /// <param name="text">The key, without a newline at its end.</param>
    /// <param name="key">What it says.</param>
    /// <param name="fault">The first thing that is wrong with it.</param>
    public static bool TryParse(
        string text,
        [NotNullWhen(true)] out NoteKey? key,
        [NotNullWhen(false)] out LogTextFault? fault
    )
    {
        var parts = text.Split('+', 3);
        if (parts.Length < 3 || !Base64Text.TryDecode(parts[2], out var typed) || typed.Length == 0)
        {
            key = null;
            fault = new LogTextFault(1, LogText.Quoted(text), AcceptedForm);
            return false;
        }

        if (!TryMake(parts[0], (NoteAlgorithm)typed[0], typed[1..], out key, out fault))
        {
            return false;
        }

        if (key.IdText != parts[1])
        {
            fault = new LogTextFault(
                1,
                $"the key id `{parts[1]}`",
                $"`{key.IdText}`, the id of this name and key"
            );
            key = null;
            return false;
        }

        return true;
    }

    /// <summary>Whether a text is meant as PEM, which bears no name, and not as a verifier key.</summary>
    public static bool IsPem(string text) => text.Contains(PemBegin, StringComparison.Ordinal);

    /// <summary>Reads the key of a log as its keeper gives it: a verifier key, or ECDSA on P-256 in PEM.</summary>
    /// <param name="origin">Name of the log, for a key in PEM.</param>
    /// <param name="text">The whole text, with line breaks around it or without.</param>
    /// <param name="key">The key.</param>
    /// <param name="fault">What is wrong with it.</param>
    public static bool TryRead(
        string origin,
        string text,
        [NotNullWhen(true)] out NoteKey? key,
        [NotNullWhen(false)] out LogTextFault? fault
    )
    {
        if (IsPem(text))
        {
            return TryFromPem(origin, text, out key, out fault);
        }

        if (TryParse(text.Trim(), out key, out fault))
        {
            return true;
        }

        fault = new LogTextFault(
            fault.Line,
            fault.Found,
            $"{fault.Accepted}; or a public key of ECDSA on P-256 in PEM"
        );
        return false;
    }

    /// <summary>Takes an ECDSA public key on P-256, as OpenSSL and certificates carry it.</summary>
    /// <param name="name">Name of the key: the log's origin.</param>
    /// <param name="spki">SubjectPublicKeyInfo in DER.</param>
    /// <param name="key">The key.</param>
    /// <param name="fault">What is wrong with it.</param>
    public static bool TryFromSpki(
        string name,
        ReadOnlySpan<byte> spki,
        [NotNullWhen(true)] out NoteKey? key,
        [NotNullWhen(false)] out LogTextFault? fault
    ) => TryMake(name, NoteAlgorithm.EcdsaP256, spki.ToArray(), out key, out fault);

    /// <summary>Takes an ECDSA public key on P-256 in PEM (<c>BEGIN PUBLIC KEY</c>).</summary>
    /// <param name="name">Name of the key: the log's origin.</param>
    /// <param name="pem">The PEM text.</param>
    /// <param name="key">The key.</param>
    /// <param name="fault">What is wrong with it.</param>
    public static bool TryFromPem(
        string name,
        string pem,
        [NotNullWhen(true)] out NoteKey? key,
        [NotNullWhen(false)] out LogTextFault? fault
    )
    {
        if (
            PemEncoding.TryFind(pem, out var fields)
            && pem.AsSpan()[fields.Label] is "PUBLIC KEY"
            && Base64Text.TryDecode(pem[fields.Base64Data].ReplaceLineEndings("").Trim(), out var spki)
        )
        {
            return TryFromSpki(name, spki, out key, out fault);
        }

        key = null;
        fault = new LogTextFault(1, "no public key in PEM", "a public key of ECDSA on P-256 in PEM");
        return false;
    }

    /// <summary>The verifier key.</summary>
    public override string ToString() => $"{Name}+{IdText}+{_base64}";

    internal static NoteKey OfWitness(string name, byte[] publicKey) =>
        TryMake(name, NoteAlgorithm.CosignatureV1, publicKey, out var key, out var fault)
            ? key
            : throw new ArgumentException(fault.ToString(), nameof(name));

    internal bool IsNamedBy(NoteSignature signature) => signature.KeyId == Id && signature.KeyName == Name;

    internal bool TryVerify(string text, NoteSignature signature, out DateTimeOffset? cosignedAt)
    {
        cosignedAt = null;
        var (message, bytes) = (LogText.Encode(text), signature.ToBytes());
        return Algorithm switch
        {
            NoteAlgorithm.EcdsaP256 => VerifiesEcdsa(message, bytes),
            NoteAlgorithm.Ed25519 => Ed25519.Verifies(Value(), message, bytes),
            NoteAlgorithm.CosignatureV1 => Cosignature.TryVerify(Value(), text, bytes, out cosignedAt),
            _ => false,
        };
    }

    private byte[] Value() => Convert.FromBase64String(_base64)[1..];

    private bool VerifiesEcdsa(byte[] message, byte[] signature)
    {
        using var key = ECDsa.Create();
        key.ImportSubjectPublicKeyInfo(Value(), out _);
        try
        {
            return key.VerifyData(
                message,
                signature,
                HashAlgorithmName.SHA256,
                DSASignatureFormat.Rfc3279DerSequence
            );
        }
        catch (CryptographicException)
        {
            // Some platforms throw on what is no DER signature instead of answering no.
            return false;
        }
    }

    private static bool TryMake(
        string name,
        NoteAlgorithm algorithm,
        byte[] value,
        [NotNullWhen(true)] out NoteKey? key,
        [NotNullWhen(false)] out LogTextFault? fault
    )
    {
        fault =
            !IsName(name) ? new LogTextFault(1, LogText.Quoted(name), AcceptedName)
            : IsSound(algorithm, value) ? null
            : new LogTextFault(
                1,
                FormattableString.Invariant($"a public key of type {(int)algorithm} that cannot be used"),
                "a key of type 1 or 4 (Ed25519, 32 bytes) or of type 2 (ECDSA on P-256, SubjectPublicKeyInfo)"
            );
        key = fault is null ? new NoteKey(name, algorithm, value) : null;
        return key is not null;
    }

    private static bool IsSound(NoteAlgorithm algorithm, byte[] value) =>
        algorithm switch
        {
            NoteAlgorithm.EcdsaP256 => IsOnP256(value),
            NoteAlgorithm.Ed25519 or NoteAlgorithm.CosignatureV1 => Ed25519.IsPublicKey(value),
            _ => false,
        };

    private static bool IsOnP256(byte[] spki)
    {
        using var key = ECDsa.Create();
        try
        {
            key.ImportSubjectPublicKeyInfo(spki, out _);
            // The one spelling only, since the key's id is a hash of it.
            return key.ExportParameters(includePrivateParameters: false).Curve.Oid.Value
                    == ECCurve.NamedCurves.nistP256.Oid.Value
                && key.ExportSubjectPublicKeyInfo().AsSpan().SequenceEqual(spki);
        }
        catch (CryptographicException)
        {
            return false;
        }
    }

    private static uint IdOf(string name, NoteAlgorithm algorithm, byte[] value) =>
        BinaryPrimitives.ReadUInt32BigEndian(
            SHA256.HashData(
                algorithm is NoteAlgorithm.EcdsaP256
                    ? value
                    : [.. LogText.Encode(name), (byte)'\n', (byte)algorithm, .. value]
            )
        );
}
