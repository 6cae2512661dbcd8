using System.Globalization;
using System.Security.Cryptography;
using ServiceRules.Reporting.Verifying.Shape;

namespace ServiceRules.Reporting.Verifying;

/// <summary>The two parts of the file under the signature, and the hex string in the gap between them.</summary>
internal sealed record SignedBytes(
    ReadOnlyMemory<byte> Before,
    ReadOnlyMemory<byte> Hex,
    ReadOnlyMemory<byte> After
)
{
    /// <summary>SHA-256 of both parts, one after the other.</summary>
    public byte[] Digest()
    {
        using var digest = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        digest.AppendData(Before.Span);
        digest.AppendData(After.Span);
        return digest.GetHashAndReset();
    }

    /// <summary>The parts, or why the byte range is not the whole file but the signature's own digits.</summary>
    public static (SignedBytes? Bytes, string? Fault) Find(
        ReadOnlyMemory<byte> file,
        PdfValue.Dictionary signature
    )
    {
        if (
            signature["ByteRange"] is not PdfValue.Array { Items: [var a, var b, var c, var d] }
            || Count(a) is not { } start1
            || Count(b) is not { } length1
            || Count(c) is not { } start2
            || Count(d) is not { } length2
        )
        {
            return (null, "the byte range is not four plain numbers");
        }
        if (signature["Contents"] is not PdfValue.Hex hex)
        {
            return (null, "the signature holds no hex string");
        }
        // 64-bit sums of 31-bit numbers: nothing can wrap.
        if (start1 != 0 || length1 != hex.Start || start2 != hex.End || start2 + length2 != file.Length)
        {
            return (
                null,
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"the signature covers bytes {start1} to {start1 + length1} and {start2} to {start2 + length2}; "
                        + $"it must cover all {file.Length} bytes but its own digits, {hex.Start} to {hex.End}"
                )
            );
        }
        var digits = file[(hex.Start + 1)..(hex.End - 1)];
        return (new SignedBytes(file[..hex.Start], digits, file[hex.End..]), null);
    }

    private static long? Count(PdfValue value) =>
        value is PdfValue.Number number
        && (number.Digits.Length == 1 || number.Digits[0] != '0')
        && int.TryParse(number.Digits, NumberStyles.None, CultureInfo.InvariantCulture, out var count)
            ? count
            : null;
}
