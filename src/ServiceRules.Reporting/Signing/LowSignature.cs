using System.Globalization;
using System.Numerics;

namespace ServiceRules.Reporting.Signing;

/// <summary>
/// Of an ECDSA signature (r, s) there is always a second one (r, n - s) that is as good, and anybody can make it without
/// the key. Reports carry the one with the lower s, so that nobody can change a byte of them.
/// </summary>
internal static class LowSignature
{
    private const int HalfBytes = 32;

    // Order of the base point of curve P-256 (SP 800-186, 3.2.1.3).
    private static readonly BigInteger Order = BigInteger.Parse(
        "0FFFFFFFF00000000FFFFFFFFFFFFFFFFBCE6FAADA7179E84F3B9CAC2FC632551",
        NumberStyles.AllowHexSpecifier,
        CultureInfo.InvariantCulture
    );

    public static bool IsLow(BigInteger s) => s.Sign > 0 && s * 2 < Order;

    /// <summary>The same signature with the lower s.</summary>
    /// <param name="signature">r and s of 32 bytes each, one after the other.</param>
    public static byte[] Of(byte[] signature)
    {
        var s = new BigInteger(signature.AsSpan(HalfBytes), isUnsigned: true, isBigEndian: true);
        if (IsLow(s))
        {
            return signature;
        }
        var low = (Order - s).ToByteArray(isUnsigned: true, isBigEndian: true);
        byte[] padded = [.. signature.AsSpan(0, HalfBytes), .. new byte[HalfBytes]];
        low.CopyTo(padded, padded.Length - low.Length);
        return padded;
    }
}
