using System.Globalization;

namespace ServiceRules.Domain.Quantities;

/// <summary>
/// A length or a signed difference of lengths, exact in decimal millimetres. Equality and order are by
/// value: 0.05 mm and 0.050 mm are the same length. Sums of lengths that were read by
/// <see cref="PrintedLength"/> are exact; a product is exact while it fits 28 digits.
/// </summary>
public readonly record struct Length : IComparable<Length>
{
    private Length(decimal millimetres) => Millimetres = millimetres;

    /// <summary>No length at all.</summary>
    public static Length Zero => default;

    /// <summary>The length in millimetres.</summary>
    public decimal Millimetres { get; }

    /// <summary>The same length without its sign.</summary>
    public Length Abs => new(Math.Abs(Millimetres));

    /// <summary>A length given in millimetres.</summary>
    /// <param name="millimetres">Any sign.</param>
    public static Length FromMillimetres(decimal millimetres) => new(millimetres);

    /// <summary>A length given in inches of exactly 25.4 mm (international inch, 1959).</summary>
    /// <param name="inches">Any sign.</param>
    public static Length FromInches(decimal inches) => new(inches * LengthUnit.Inch.Millimetres());

    /// <summary>The shorter (more negative) of two lengths.</summary>
    public static Length Min(Length left, Length right) => left <= right ? left : right;

    /// <summary>The longer (more positive) of two lengths.</summary>
    public static Length Max(Length left, Length right) => left >= right ? left : right;

    /// <summary>The sum of two lengths.</summary>
    public static Length operator +(Length left, Length right) => new(left.Millimetres + right.Millimetres);

    /// <summary>The signed difference of two lengths.</summary>
    public static Length operator -(Length left, Length right) => new(left.Millimetres - right.Millimetres);

    /// <summary>The same length in the opposite direction.</summary>
    public static Length operator -(Length length) => new(-length.Millimetres);

    /// <summary>A whole number of equal lengths, such as the steps of an adjuster.</summary>
    public static Length operator *(Length length, int count) => new(length.Millimetres * count);

    /// <summary>A whole number of equal lengths, such as the steps of an adjuster.</summary>
    public static Length operator *(int count, Length length) => length * count;

    /// <summary>A length scaled by a pure number.</summary>
    public static Length operator *(Length length, decimal factor) => new(length.Millimetres * factor);

    /// <summary>A length scaled by a pure number.</summary>
    public static Length operator *(decimal factor, Length length) => length * factor;

    /// <summary>Whether the left length is less than the right one.</summary>
    public static bool operator <(Length left, Length right) => left.Millimetres < right.Millimetres;

    /// <summary>Whether the left length is greater than the right one.</summary>
    public static bool operator >(Length left, Length right) => left.Millimetres > right.Millimetres;

    /// <summary>Whether the left length is at most the right one.</summary>
    public static bool operator <=(Length left, Length right) => left.Millimetres <= right.Millimetres;

    /// <summary>Whether the left length is at least the right one.</summary>
    public static bool operator >=(Length left, Length right) => left.Millimetres >= right.Millimetres;

    /// <inheritdoc/>
    public int CompareTo(Length other) => Millimetres.CompareTo(other.Millimetres);

    /// <summary>The length in millimetres with no more digits than it has: <c>0.0254 mm</c>.</summary>
    public override string ToString() =>
        Millimetres.ToString("0.############################", CultureInfo.InvariantCulture) + " mm";

    /// <summary>
    /// The length for display, rounded half to even (NIST SP 811, 2008, B.7.1) in one step from the exact
    /// value: <c>0.025 mm</c>. A rounded figure is never a limit and never judged.
    /// </summary>
    /// <param name="unit">The unit to show.</param>
    /// <param name="decimals">How many decimals to show, 0 to 9.</param>
    public string ToString(LengthUnit unit, int decimals)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(decimals);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(decimals, 9);
        decimal rounded = decimal.Round(Millimetres / unit.Millimetres(), decimals, MidpointRounding.ToEven);
        string format = string.Create(CultureInfo.InvariantCulture, $"F{decimals}");
        return $"{rounded.ToString(format, CultureInfo.InvariantCulture)} {unit.Symbol()}";
    }
}
