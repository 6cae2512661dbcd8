using System.Security.Cryptography;

namespace ServiceRules.Evidence.Log;

/// <summary>Signs checkpoints with an ECDSA key that the caller holds and disposes of.</summary>
public sealed class EcdsaLogSigner : ILogSigner
{
    private readonly ECDsa _key;

    /// <summary>Takes a private key on P-256.</summary>
    /// <param name="origin">The log's name, which is the name of its key.</param>
    /// <param name="key">The private key.</param>
    /// <exception cref="ArgumentException">The name is none, or the key is on another curve.</exception>
    public EcdsaLogSigner(string origin, ECDsa key)
    {
        _key = key;
        Key = NoteKey.TryFromSpki(origin, key.ExportSubjectPublicKeyInfo(), out var known, out var fault)
            ? known
            : throw new ArgumentException($"{fault.Found}; accepted: {fault.Accepted}", nameof(key));
    }

    /// <inheritdoc/>
    public NoteKey Key { get; }

    /// <inheritdoc/>
    public byte[] Sign(ReadOnlySpan<byte> text) =>
        _key.SignData(text, HashAlgorithmName.SHA256, DSASignatureFormat.Rfc3279DerSequence);
}
