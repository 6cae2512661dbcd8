using System.Text;
using System.Text.Json;
using System.Text.Unicode;

namespace ServiceRules.Evidence;

/// <summary>
/// The JSON Canonicalization Scheme of RFC 8785: the one spelling of a JSON document that is hashed, logged and signed.
/// A pure function of the bytes. Whatever RFC 8785 and RFC 7493 leave without one meaning (duplicate names, lone
/// surrogates, invalid UTF-8, numbers beyond a double) is refused with a reason, never repaired and never thrown.
/// </summary>
/// <remarks>
/// Numbers are IEEE 754 doubles by definition of the scheme: digits beyond a double's precision are rounded and a
/// number too small for a double becomes zero. What must keep its digits is written as a string.
/// </remarks>
public static class CanonicalJson
{
    /// <summary>
    /// The largest input in bytes, 16 MiB: a hundred times the largest document that this product writes, and little
    /// enough that canonicalising it fits the memory of a small machine.
    /// </summary>
    public const int MaxBytes = 16 * 1024 * 1024;

    /// <summary>
    /// The deepest nesting of objects and arrays, 64: several times what any document of this product needs, and far
    /// from exhausting a thread's stack.
    /// </summary>
    public const int MaxDepth = 64;

    /// <summary>Canonicalises one JSON document given as UTF-8 bytes without byte order mark.</summary>
    public static Canonicalisation Canonicalise(ReadOnlySpan<byte> utf8Json)
    {
        if (utf8Json.Length > MaxBytes)
        {
            return Refuse(
                CanonicalRefusalReason.TooLarge,
                MaxBytes,
                FormattableString.Invariant($"{utf8Json.Length} bytes"),
                FormattableString.Invariant($"at most {MaxBytes} bytes")
            );
        }

        if (!Utf8.IsValid(utf8Json))
        {
            return RefuseInvalidUtf8(utf8Json);
        }

        try
        {
            return Read(utf8Json);
        }
        catch (JsonException fault)
        {
            return Refuse(
                CanonicalRefusalReason.NotJson,
                OffsetOf(fault, utf8Json),
                "text that is not JSON",
                "exactly one JSON value by RFC 8259, without comments or trailing commas"
            );
        }
    }

    private static Canonicalisation Read(ReadOnlySpan<byte> utf8Json)
    {
        // One more than allowed, so that the level too many is seen and named here.
        var options = new JsonReaderOptions { MaxDepth = MaxDepth + 1 };
        var json = new Utf8JsonReader(utf8Json, options);
        var output = new CanonicalOutput();
        _ = json.Read();
        if (CanonicalValue.TryCopy(ref json, output) is { } refusal)
        {
            return new Canonicalisation(refusal);
        }

        // Makes the reader look for anything after the one value.
        _ = json.Read();
        return new Canonicalisation(new CanonicalDocument(output.ToArray()));
    }

    private static Canonicalisation RefuseInvalidUtf8(ReadOnlySpan<byte> utf8Json)
    {
        var offset = 0;
        while (
            Rune.DecodeFromUtf8(utf8Json[offset..], out _, out var consumed)
            == System.Buffers.OperationStatus.Done
        )
        {
            offset += consumed;
        }

        return Refuse(
            CanonicalRefusalReason.InvalidUtf8,
            offset,
            FormattableString.Invariant($"the byte 0x{utf8Json[offset]:x2}, which is not UTF-8 here"),
            "valid UTF-8"
        );
    }

    private static Canonicalisation Refuse(
        CanonicalRefusalReason reason,
        long offset,
        string found,
        string accepted
    ) => new(new CanonicalRefusal(reason, offset, found, accepted));

    private static long OffsetOf(JsonException fault, ReadOnlySpan<byte> utf8Json)
    {
        var offset = 0L;
        for (var line = fault.LineNumber ?? 0; line > 0; line--)
        {
            offset += utf8Json[(int)offset..].IndexOf((byte)'\n') + 1;
        }

        return offset + (fault.BytePositionInLine ?? 0);
    }
}
