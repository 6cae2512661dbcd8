using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Measurement;

/// <summary>
/// A standard uncertainty u of a length (JCGM 100:2008, 2.3.1): one standard deviation, never negative.
/// It is held rounded up to a whole 0.0001 µm (<see cref="Quantum"/>) before anything compares it, so that a
/// verdict never hangs on the last bits of a floating-point number. Zero means exactly known.
/// </summary>
public readonly record struct StandardUncertainty : IComparable<StandardUncertainty>
{
    private StandardUncertainty(decimal millimetres) => Value = Length.FromMillimetres(millimetres);

    /// <summary>The step to which uncertainties are rounded up: 0.0000001 mm.</summary>
    public static Length Quantum => Length.FromMillimetres(QuantumMillimetres);

    /// <summary>Exactly known.</summary>
    public static StandardUncertainty Zero => default;

    /// <summary>The largest uncertainty that is taken: 1 km, far beyond any gauge and far inside the arithmetic.</summary>
    public static Length Largest => Length.FromMillimetres(LargestMillimetres);

    /// <summary>The uncertainty as a length, a whole number of quanta.</summary>
    public Length Value { get; }

    private const decimal QuantumMillimetres = 0.0000001m;
    private const decimal LargestMillimetres = 1_000_000m;

    /// <summary>An uncertainty given as a length, rounded up to the quantum.</summary>
    /// <param name="length">Zero or more, at most <see cref="Largest"/>.</param>
    /// <exception cref="ArgumentOutOfRangeException">The length is out of range.</exception>
    public static StandardUncertainty From(Length length)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(length.Millimetres, nameof(length));
        ArgumentOutOfRangeException.ThrowIfGreaterThan(
            length.Millimetres,
            LargestMillimetres,
            nameof(length)
        );
        return new(RoundUp(length.Millimetres));
    }

    /// <summary>
    /// An uncertainty computed in floating point: taken to 15 significant digits (so that 0.003 is 0.003),
    /// then rounded up to the quantum. Beyond <see cref="Largest"/> it stays there: nothing is provable either way.
    /// </summary>
    internal static StandardUncertainty FromComputed(double millimetres)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(millimetres);
        return new(RoundUp((decimal)Math.Min(millimetres, (double)LargestMillimetres)));
    }

    internal static decimal RoundUp(decimal millimetres) =>
        decimal.Ceiling(millimetres / QuantumMillimetres) * QuantumMillimetres;

    /// <summary>Whether the left uncertainty is smaller.</summary>
    public static bool operator <(StandardUncertainty left, StandardUncertainty right) =>
        left.Value < right.Value;

    /// <summary>Whether the left uncertainty is larger.</summary>
    public static bool operator >(StandardUncertainty left, StandardUncertainty right) =>
        left.Value > right.Value;

    /// <summary>Whether the left uncertainty is at most the right one.</summary>
    public static bool operator <=(StandardUncertainty left, StandardUncertainty right) =>
        left.Value <= right.Value;

    /// <summary>Whether the left uncertainty is at least the right one.</summary>
    public static bool operator >=(StandardUncertainty left, StandardUncertainty right) =>
        left.Value >= right.Value;

    /// <inheritdoc/>
    public int CompareTo(StandardUncertainty other) => Value.CompareTo(other.Value);

    /// <summary>The uncertainty in millimetres.</summary>
    public override string ToString() => Value.ToString();

    internal double Millimetres => (double)Value.Millimetres;
}
