using System.Buffers.Binary;
using System.Diagnostics.CodeAnalysis;
using System.Security.Cryptography;

namespace ServiceRules.Evidence.Log;

/// <summary>
/// A hash of the Merkle tree of RFC 9162: of a leaf, an inner node or the root. Equal when all 32 bytes are equal.
/// Another type than <see cref="ContentHash"/> on purpose: a leaf's hash is not the hash of the entry's bytes.
/// </summary>
public readonly record struct TreeHash
{
    /// <summary>Length of the hash in bytes.</summary>
    public const int ByteCount = SHA256.HashSizeInBytes;

    /// <summary>What <see cref="TryParse"/> reads, for error texts.</summary>
    public const string AcceptedForm = "32 bytes in base64: 44 characters, the last of them `=`";

    private readonly UInt128 _first;
    private readonly UInt128 _last;

    internal TreeHash(ReadOnlySpan<byte> hash)
    {
        _first = BinaryPrimitives.ReadUInt128BigEndian(hash);
        _last = BinaryPrimitives.ReadUInt128BigEndian(hash[(ByteCount / 2)..]);
    }

    /// <summary>Reads the one text form, <see cref="AcceptedForm"/>; false for everything else.</summary>
    public static bool TryParse([NotNullWhen(true)] string? text, out TreeHash value)
    {
        value = default;
        if (text is null || !Base64Text.TryDecode(text, out var bytes) || bytes.Length != ByteCount)
        {
            return false;
        }

        value = new TreeHash(bytes);
        return true;
    }

    /// <summary>The 32 bytes.</summary>
    public byte[] ToBytes()
    {
        var bytes = new byte[ByteCount];
        CopyTo(bytes);
        return bytes;
    }

    /// <summary>The text form, as in checkpoints and proofs: <see cref="AcceptedForm"/>.</summary>
    public override string ToString() => Convert.ToBase64String(ToBytes());

    internal void CopyTo(Span<byte> destination)
    {
        BinaryPrimitives.WriteUInt128BigEndian(destination, _first);
        BinaryPrimitives.WriteUInt128BigEndian(destination[(ByteCount / 2)..], _last);
    }
}
