using System.Globalization;
using System.Text;

namespace ServiceRules.Reporting.Pdf;

/// <summary>
/// Text for the file's own entries (title, signer), which pass unescaped into its XML metadata and are compared byte
/// by byte: anything but plain printable ASCII, and the letters that XML reserves, is spelled out.
/// </summary>
internal static class PlainAscii
{
    public static string Of(string text)
    {
        var plain = new StringBuilder(text.Length);
        foreach (var symbol in text)
        {
            _ = symbol switch
            {
                '&' => plain.Append("and"),
                '<' => plain.Append('('),
                '>' => plain.Append(')'),
                >= ' ' and <= '~' => plain.Append(symbol),
                _ => plain.Append(CultureInfo.InvariantCulture, $"[U+{(int)symbol:X4}]"),
            };
        }
        return plain.ToString();
    }
}
