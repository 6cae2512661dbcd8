using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;
using ServiceRules.Domain.Quantities;

namespace ServiceRules.Conformance.Tests.Worked;

/// <summary>The words and figures of the worked records, written from the product's values by the plainest means.</summary>
internal static partial class Words
{
    public static string Of<T>(T word)
        where T : struct, Enum
    {
        StringBuilder text = new();
        foreach (char letter in word.ToString())
        {
            _ = char.IsUpper(letter) && text.Length > 0 ? text.Append('-') : text;
            _ = text.Append(char.ToLowerInvariant(letter));
        }

        return text.ToString();
    }

    public static string? Of(Length? length) =>
        length?.Millimetres.ToString("0.############################", CultureInfo.InvariantCulture);

    /// <summary>Every length of a record in inches told in millimetres instead, exactly.</summary>
    public static string InMillimetres(string record) =>
        Inches().Replace(record, match => Converted(match, value => value * 25.4m, "mm"));

    /// <summary>Every length of a record in millimetres told in inches instead, to 1e-9 in.</summary>
    public static string InInches(string record) =>
        Millimetres().Replace(record, match => Converted(match, value => value / 25.4m, "in"));

    private static string Converted(Match match, Func<decimal, decimal> convert, string unit)
    {
        decimal value = decimal.Parse(match.Groups["value"].Value, CultureInfo.InvariantCulture);
        return string.Create(CultureInfo.InvariantCulture, $"\"{convert(value):F9} {unit}\"");
    }

    [GeneratedRegex("\"(?<value>-?[0-9.]+) in\"", RegexOptions.CultureInvariant, 1000)]
    private static partial Regex Inches();

    [GeneratedRegex("\"(?<value>-?[0-9.]+) mm\"", RegexOptions.CultureInvariant, 1000)]
    private static partial Regex Millimetres();
}
