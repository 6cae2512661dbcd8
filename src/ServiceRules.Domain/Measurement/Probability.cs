using System.Globalization;

namespace ServiceRules.Domain.Measurement;

/// <summary>
/// A probability from 0 to 1, rounded to a whole billionth before anything compares or prints it, so that it
/// does not hang on the last bits of a floating-point number. Its complement is exact.
/// </summary>
public readonly record struct Probability : IComparable<Probability>
{
    private const int Decimals = 9;

    private Probability(decimal value) => Value = value;

    /// <summary>Impossible.</summary>
    public static Probability Zero => default;

    /// <summary>Certain.</summary>
    public static Probability One => new(1m);

    /// <summary>The probability, a whole number of billionths.</summary>
    public decimal Value { get; }

    /// <summary>One minus this probability.</summary>
    public Probability Complement => new(1m - Value);

    /// <summary>A probability given exactly.</summary>
    /// <param name="value">From 0 to 1; rounded to nine decimals, ties to even.</param>
    /// <exception cref="ArgumentOutOfRangeException">The value is not from 0 to 1.</exception>
    public static Probability Of(decimal value)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(value);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(value, 1m);
        return new(Math.Round(value, Decimals));
    }

    internal static Probability FromComputed(double value) => Of((decimal)Math.Clamp(value, 0, 1));

    /// <summary>Whether the left probability is smaller.</summary>
    public static bool operator <(Probability left, Probability right) => left.Value < right.Value;

    /// <summary>Whether the left probability is larger.</summary>
    public static bool operator >(Probability left, Probability right) => left.Value > right.Value;

    /// <summary>Whether the left probability is at most the right one.</summary>
    public static bool operator <=(Probability left, Probability right) => left.Value <= right.Value;

    /// <summary>Whether the left probability is at least the right one.</summary>
    public static bool operator >=(Probability left, Probability right) => left.Value >= right.Value;

    /// <inheritdoc/>
    public int CompareTo(Probability other) => Value.CompareTo(other.Value);

    /// <summary>The probability with no more digits than it has: <c>0.95</c>.</summary>
    public override string ToString() => Value.ToString("0.#########", CultureInfo.InvariantCulture);
}
