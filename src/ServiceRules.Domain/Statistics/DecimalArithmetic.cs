namespace ServiceRules.Domain.Statistics;

/// <summary>
/// Square roots and norms in decimal, 28 digits: the same bits on every machine, which floating point does not
/// promise. Numbers are held near one on the way, since a decimal keeps no more than 28 digits behind the point.
/// </summary>
internal static class DecimalArithmetic
{
    private const int MostDecimals = 28;
    private const decimal Farthest = 1e15m;

    /// <summary>√value, to the last digits of a decimal.</summary>
    /// <param name="value">Zero or more.</param>
    public static decimal SquareRoot(decimal value)
    {
        if (value <= 0)
        {
            ArgumentOutOfRangeException.ThrowIfNegative(value);
            return 0;
        }

        // An even exponent, so that its half is whole.
        var exponent = Exponent(value) / 2 * 2;
        var near = Scaled(value, -exponent);
        var root = (decimal)Math.Sqrt((double)near);
        for (var step = 0; step < 3; step++)
        {
            root = (root + (near / root)) / 2;
        }

        return Scaled(root, exponent / 2);
    }

    /// <summary>√Σvᵢ².</summary>
    public static decimal Norm(IReadOnlyCollection<decimal> values)
    {
        var exponent = Exponent(values);
        var sum = values.Select(value => Scaled(value, -exponent)).Sum(value => value * value);
        return Scaled(SquareRoot(sum), exponent);
    }

    /// <summary>Σaᵢbᵢ.</summary>
    public static decimal Product(IEnumerable<decimal> first, IEnumerable<decimal> second) =>
        first.Zip(second, (a, b) => a * b).Sum();

    /// <summary>The quotient; none where it lies beyond 1e15 or is divided by nothing.</summary>
    public static decimal? Quotient(decimal dividend, decimal divisor) =>
        divisor != 0 && Math.Abs(dividend) / Farthest <= Math.Abs(divisor) ? dividend / divisor : null;

    /// <summary>The power of ten just above the largest of the values, so that all divided by it lie within ±1.</summary>
    public static int Exponent(IEnumerable<decimal> values) =>
        Exponent(values.Select(Math.Abs).DefaultIfEmpty(0).Max());

    /// <summary>value · 10^exponent.</summary>
    public static decimal Scaled(decimal value, int exponent)
    {
        // In two strides, since the power itself may lie beyond what a decimal holds.
        for (; exponent > 0; exponent -= Math.Min(exponent, MostDecimals))
        {
            value *= Power(Math.Min(exponent, MostDecimals));
        }

        for (; exponent < 0; exponent += Math.Min(-exponent, MostDecimals))
        {
            value /= Power(Math.Min(-exponent, MostDecimals));
        }

        return value;
    }

    private static int Exponent(decimal largest)
    {
        var exponent = 0;
        for (; largest > 1; largest /= 10)
        {
            exponent++;
        }

        for (; largest is > 0 and <= 0.1m; largest *= 10)
        {
            exponent--;
        }

        return exponent;
    }

    private static decimal Power(int exponent)
    {
        var power = 1m;
        for (var step = 0; step < exponent; step++)
        {
            power *= 10;
        }

        return power;
    }
}
