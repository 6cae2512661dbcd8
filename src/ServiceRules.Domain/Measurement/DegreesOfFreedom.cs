using System.Globalization;

namespace ServiceRules.Domain.Measurement;

/// <summary>
/// How well a standard uncertainty is itself known (JCGM 100:2008, G.3 and G.4): 1 or more, or infinite for
/// an uncertainty taken as known. The default value is infinite.
/// </summary>
public readonly record struct DegreesOfFreedom
{
    private readonly double _finite;

    private DegreesOfFreedom(double finite) => _finite = finite;

    /// <summary>The uncertainty is taken as known.</summary>
    public static DegreesOfFreedom Infinite => default;

    /// <summary>Whether the uncertainty is taken as known.</summary>
    public bool IsInfinite => _finite == 0;

    /// <summary>
    /// The next lower whole number (JCGM 100:2008, G.4.2), or none when infinite. A value within 1e-9 below a
    /// whole number counts as that number: 40 computed as 39.9999999999 is 40, while 18.9987 is 18.
    /// </summary>
    public int? Truncated => IsInfinite ? null : (int)Math.Floor(Math.Round(_finite, 9));

    /// <summary>The same, truncated to the next lower whole number.</summary>
    internal DegreesOfFreedom Whole => Truncated is { } whole ? Of(whole) : Infinite;

    /// <summary>A finite number of degrees of freedom; beyond a million it counts as infinite.</summary>
    /// <param name="value">At least 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">The value is below 1 or not a number.</exception>
    public static DegreesOfFreedom Of(double value)
    {
        if (!(value >= 1 - 1e-9))
        {
            throw new ArgumentOutOfRangeException(nameof(value), value, "degrees of freedom start at 1");
        }

        return value >= 1e6 ? Infinite : new(Math.Max(1, value));
    }

    /// <summary>The fewer of two.</summary>
    public static DegreesOfFreedom Least(DegreesOfFreedom one, DegreesOfFreedom other) =>
        one.Reciprocal >= other.Reciprocal ? one : other;

    /// <summary>The number, or <c>infinite</c>.</summary>
    public override string ToString() =>
        IsInfinite ? "infinite" : Math.Round(_finite, 3).ToString(CultureInfo.InvariantCulture);

    /// <summary>The number to six decimals, as documents state it; none when infinite.</summary>
    public decimal? Stated => IsInfinite ? null : Math.Round((decimal)_finite, 6);

    /// <summary>The number; none when infinite.</summary>
    internal double? Number => IsInfinite ? null : _finite;

    internal double Reciprocal => IsInfinite ? 0 : 1 / _finite;
}
