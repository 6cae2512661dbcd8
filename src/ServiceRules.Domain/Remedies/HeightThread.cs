using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Remedies;

/// <summary>
/// A screw that sets the height, where the limit sheet states its pitch and ratio: one turn changes the height by
/// pitch · ratio (derived geometry).
/// </summary>
/// <param name="Pitch">Advance of the screw by one turn, above zero.</param>
/// <param name="Ratio">Change of height per advance of the screw, above zero; 1 when it acts directly.</param>
public sealed record HeightThread(Length Pitch, decimal Ratio)
{
    /// <summary>Change of height by one turn.</summary>
    public Length PerTurn => Pitch * Ratio;

    /// <summary>
    /// The screw whose ratio two recorded settings tell: ratio = change of height by a part of a turn · parts / pitch
    /// (derived), to 22 decimals.
    /// </summary>
    /// <param name="pitch">Advance of the screw by one turn, above zero.</param>
    /// <param name="perPart">Change of height by one part of a turn, above zero.</param>
    /// <param name="partsPerTurn">Parts in a whole turn.</param>
    public static HeightThread Learned(Length pitch, Length perPart, int partsPerTurn) =>
        new(pitch, Geometry.Rounding.Factor(perPart.Millimetres * partsPerTurn / pitch.Millimetres));

    /// <summary>Change of height by one of so many equal parts of a turn, rounded to 1e-12 mm.</summary>
    public Length PartOf(int partsPerTurn)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(partsPerTurn);
        return Geometry.Rounding.ToLength(PerTurn.Millimetres / partsPerTurn);
    }

    /// <summary>
    /// The nearest whole number of parts of a turn for a change of height, ties to the smaller turn. As steps of
    /// an <see cref="AdjusterPair"/>, a part moves the height by <see cref="PerTurn"/> divided by the parts.
    /// </summary>
    /// <param name="change">Signed change of height; positive raises.</param>
    /// <param name="partsPerTurn">Into how many parts a turn can be told apart by eye, 1 to 360.</param>
    public HeightTurns TurnsFor(Length change, int partsPerTurn)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(PerTurn.Millimetres, nameof(Pitch));
        ArgumentOutOfRangeException.ThrowIfLessThan(partsPerTurn, 1);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(partsPerTurn, 360);
        var exact = change.Millimetres * partsPerTurn / PerTurn.Millimetres;
        var whole = (int)decimal.Truncate(exact);
        var parts = Math.Abs(exact - whole) > 0.5m ? whole + Math.Sign(exact) : whole;
        return new(
            parts,
            partsPerTurn,
            Geometry.Rounding.ToLength(PerTurn.Millimetres * parts / partsPerTurn)
        );
    }
}
