using System.Buffers;
using System.Buffers.Binary;
using System.Diagnostics.CodeAnalysis;
using System.Security.Cryptography;

namespace ServiceRules.Evidence;

/// <summary>
/// The SHA-256 (FIPS 180-4) of some bytes: how records, packs, contexts, assessments and attached files name each
/// other. Equal when all 32 bytes are equal. <c>default</c> is 32 zero bytes, a hash of no known content.
/// </summary>
public readonly record struct ContentHash
{
    /// <summary>Length of the hash in bytes.</summary>
    public const int ByteCount = SHA256.HashSizeInBytes;

    /// <summary>What <see cref="TryParse"/> reads, for error texts.</summary>
    public const string AcceptedForm = "`sha256:` followed by 64 lower-case hexadecimal digits";

    private const string Prefix = "sha256:";

    private static readonly SearchValues<char> HexDigits = SearchValues.Create("0123456789abcdef");

    private readonly UInt128 _first;
    private readonly UInt128 _last;

    private ContentHash(ReadOnlySpan<byte> hash)
    {
        _first = BinaryPrimitives.ReadUInt128BigEndian(hash);
        _last = BinaryPrimitives.ReadUInt128BigEndian(hash[(ByteCount / 2)..]);
    }

    /// <summary>The hash of <paramref name="content"/>, taken as it is: nothing is canonicalised here.</summary>
    public static ContentHash Of(ReadOnlySpan<byte> content)
    {
        Span<byte> hash = stackalloc byte[ByteCount];
        SHA256.HashData(content, hash);
        return new ContentHash(hash);
    }

    /// <summary>Takes 32 bytes that are a hash already; false for any other length.</summary>
    public static bool TryFromBytes(ReadOnlySpan<byte> hash, out ContentHash value)
    {
        value = hash.Length == ByteCount ? new ContentHash(hash) : default;
        return hash.Length == ByteCount;
    }

    /// <summary>Reads the one text form, <see cref="AcceptedForm"/>; false for everything else.</summary>
    public static bool TryParse([NotNullWhen(true)] string? text, out ContentHash value)
    {
        value = default;
        if (
            text is null
            || text.Length != Prefix.Length + (2 * ByteCount)
            || !text.StartsWith(Prefix, StringComparison.Ordinal)
            || text.AsSpan(Prefix.Length).ContainsAnyExcept(HexDigits)
        )
        {
            return false;
        }

        value = new ContentHash(Convert.FromHexString(text.AsSpan(Prefix.Length)));
        return true;
    }

    /// <summary>The 32 bytes, in the order in which the text form prints them.</summary>
    public byte[] ToBytes()
    {
        var bytes = new byte[ByteCount];
        BinaryPrimitives.WriteUInt128BigEndian(bytes, _first);
        BinaryPrimitives.WriteUInt128BigEndian(bytes.AsSpan(ByteCount / 2), _last);
        return bytes;
    }

    /// <summary>The text form: <see cref="AcceptedForm"/>.</summary>
    public override string ToString() => Prefix + Convert.ToHexStringLower(ToBytes());
}
