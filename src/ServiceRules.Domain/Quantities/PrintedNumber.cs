using System.Globalization;
using System.Text.RegularExpressions;

namespace ServiceRules.Domain.Quantities;

/// <summary>A decimal number whose printed digits are kept: <c>0.050</c> has three decimals.</summary>
internal readonly partial record struct PrintedNumber
{
    /// <summary>
    /// Twelve digits reach from a kilometre down past the nanometre, and keep every product with a unit and
    /// every sum of such products within the 28 digits of a decimal, so that arithmetic stays exact.
    /// </summary>
    public const int MostDigits = 12;

    private PrintedNumber(decimal value) => Value = value;

    /// <summary>The number; its scale is the number of printed decimals.</summary>
    public decimal Value { get; }

    /// <summary>One unit of the last printed digit.</summary>
    public decimal LastDigitUnit => new(1, 0, 0, false, Value.Scale);

    /// <summary>Reads digits, with a point and a leading minus where needed; says what is wrong otherwise.</summary>
    public static bool TryRead(string text, out PrintedNumber number, out string problem)
    {
        number = default;
        problem = string.Empty;
        if (!Shape.IsMatch(text))
        {
            problem = "is not a plain decimal number with a digit on both sides of any point";
            return false;
        }

        if (text.Count(char.IsAsciiDigit) > MostDigits)
        {
            problem = $"has more than {MostDigits} digits";
            return false;
        }

        number = Of(
            decimal.Parse(
                text,
                NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint,
                CultureInfo.InvariantCulture
            )
        );
        return true;
    }

    /// <summary>A number whose scale says how many decimals it prints.</summary>
    public static PrintedNumber Of(decimal value) => new(value);

    /// <inheritdoc/>
    public override string ToString() => Value.ToString(CultureInfo.InvariantCulture);

    [GeneratedRegex(@"\A-?(0|[1-9][0-9]*)(\.[0-9]+)?\z", RegexOptions.ExplicitCapture)]
    private static partial Regex Shape { get; }
}
