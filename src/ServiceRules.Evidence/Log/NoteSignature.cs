using System.Buffers.Binary;
using System.Diagnostics.CodeAnalysis;

namespace ServiceRules.Evidence.Log;

/// <summary>One signature line of a note: who signed, by which key, and the signature.</summary>
public sealed record NoteSignature
{
    /// <summary>What a signature line looks like, for error texts.</summary>
    public const string AcceptedForm =
        "a signature line: `— `, the key's name without spaces and `+`, a space, base64 of 4 bytes key id and the signature";

    internal const string Mark = "— ";

    private const int KeyIdBytes = sizeof(uint);

    // The text form: byte arrays would compare by reference.
    private readonly string _base64;

    private NoteSignature(string keyName, uint keyId, string base64) =>
        (KeyName, KeyId, _base64) = (keyName, keyId, base64);

    /// <summary>Name of the key.</summary>
    public string KeyName { get; }

    /// <summary>Short name of the key's value; not a fingerprint to trust a key by.</summary>
    public uint KeyId { get; }

    /// <summary>The signature without the key's id; for a cosignature its time and the signature.</summary>
    public byte[] ToBytes() => Convert.FromBase64String(_base64)[KeyIdBytes..];

    /// <summary>The line, without the newline at its end.</summary>
    public override string ToString() => $"{Mark}{KeyName} {_base64}";

    internal static NoteSignature Of(NoteKey key, ReadOnlySpan<byte> signature)
    {
        var bytes = new byte[KeyIdBytes + signature.Length];
        BinaryPrimitives.WriteUInt32BigEndian(bytes, key.Id);
        signature.CopyTo(bytes.AsSpan(KeyIdBytes));
        return new NoteSignature(key.Name, key.Id, Convert.ToBase64String(bytes));
    }

    internal static bool TryParse(string line, [NotNullWhen(true)] out NoteSignature? signature)
    {
        signature = null;
        var parts = line.Split(' ');
        if (
            parts.Length == 3
            && parts[0] == Mark.TrimEnd()
            && NoteKey.IsName(parts[1])
            && Base64Text.TryDecode(parts[2], out var bytes)
            && bytes.Length > KeyIdBytes
        )
        {
            signature = new NoteSignature(parts[1], BinaryPrimitives.ReadUInt32BigEndian(bytes), parts[2]);
        }

        return signature is not null;
    }
}
