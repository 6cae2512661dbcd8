using System.Globalization;

namespace ServiceRules.Evidence;

/// <summary>
/// Prints a finite double as ECMAScript's <c>Number::toString</c> does (ECMA-262, the form RFC 8785 section 3.2.2.3
/// asks for). The shortest round-trip digits are the runtime's; only their layout is decided here.
/// </summary>
internal static class EcmaScriptNumber
{
    /// <summary>The longest text: sign, 17 digits, point, <c>e-324</c>; or 21 digits with sign.</summary>
    public const int MaxLength = 25;

    // ECMA-262: positional notation while the decimal exponent n satisfies -6 < n <= 21.
    private const int PositionalExponentMax = 21;
    private const int PositionalExponentMin = -6;

    public static int Write(double value, Span<byte> target)
    {
        if (value == 0)
        {
            // Minus zero prints as zero.
            target[0] = (byte)'0';
            return 1;
        }

        Span<byte> digits = stackalloc byte[32];
        var (count, exponent) = ShortestDigits(Math.Abs(value), digits);
        var length = 0;
        if (value < 0)
        {
            target[length++] = (byte)'-';
        }

        return length + Lay(digits[..count], exponent, target[length..]);
    }

    /// <summary>Significant digits d1...dk and the exponent n with value = 0.d1...dk * 10^n.</summary>
    private static (int Count, int Exponent) ShortestDigits(double value, Span<byte> digits)
    {
        Span<byte> printed = stackalloc byte[64];
        if (!value.TryFormat(printed, out var length, "R", CultureInfo.InvariantCulture))
        {
            throw new InvalidOperationException(
                "the round-trip form of a double is longer than 64 characters"
            );
        }

        var text = printed[..length];
        var exponent = 0;
        var mark = text.IndexOf((byte)'E');
        if (mark >= 0)
        {
            exponent = int.Parse(
                text[(mark + 1)..],
                NumberStyles.AllowLeadingSign,
                CultureInfo.InvariantCulture
            );
            text = text[..mark];
        }

        var point = text.IndexOf((byte)'.');
        exponent += point < 0 ? text.Length : point;
        var count = 0;
        foreach (var symbol in text)
        {
            if (symbol == (byte)'.')
            {
                continue;
            }

            if (count == 0 && symbol == (byte)'0')
            {
                exponent--;
                continue;
            }

            digits[count++] = symbol;
        }

        return (digits[..count].TrimEnd((byte)'0').Length, exponent);
    }

    private static int Lay(ReadOnlySpan<byte> digits, int exponent, Span<byte> target)
    {
        if (exponent is <= PositionalExponentMax and > 0)
        {
            return LayPositional(digits, exponent, target);
        }

        if (exponent is > PositionalExponentMin and <= 0)
        {
            "0."u8.CopyTo(target);
            target.Slice(2, -exponent).Fill((byte)'0');
            digits.CopyTo(target[(2 - exponent)..]);
            return 2 - exponent + digits.Length;
        }

        return LayScientific(digits, exponent - 1, target);
    }

    private static int LayPositional(ReadOnlySpan<byte> digits, int exponent, Span<byte> target)
    {
        if (digits.Length <= exponent)
        {
            digits.CopyTo(target);
            target[digits.Length..exponent].Fill((byte)'0');
            return exponent;
        }

        digits[..exponent].CopyTo(target);
        target[exponent] = (byte)'.';
        digits[exponent..].CopyTo(target[(exponent + 1)..]);
        return digits.Length + 1;
    }

    private static int LayScientific(ReadOnlySpan<byte> digits, int exponent, Span<byte> target)
    {
        var length = 0;
        target[length++] = digits[0];
        if (digits.Length > 1)
        {
            target[length++] = (byte)'.';
            digits[1..].CopyTo(target[length..]);
            length += digits.Length - 1;
        }

        target[length++] = (byte)'e';
        target[length++] = exponent < 0 ? (byte)'-' : (byte)'+';
        _ = Math.Abs(exponent)
            .TryFormat(target[length..], out var written, default, CultureInfo.InvariantCulture);
        return length + written;
    }
}
