using System.Diagnostics.CodeAnalysis;

namespace ServiceRules.Evidence.Log;

/// <summary>Base64 by RFC 4648 section 4 in its one spelling: padded, no white space, unused bits zero.</summary>
internal static class Base64Text
{
    public static bool TryDecode(string text, [NotNullWhen(true)] out byte[]? bytes)
    {
        var decoded = new byte[(text.Length / 4 * 3) + 3];
        bytes =
            Convert.TryFromBase64String(text, decoded, out var count)
            && Convert.ToBase64String(decoded, 0, count) == text
                ? decoded[..count]
                : null;
        return bytes is not null;
    }
}
