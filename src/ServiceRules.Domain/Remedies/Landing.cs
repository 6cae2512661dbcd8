using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Remedies;

/// <summary>What one place has now and will have after turning.</summary>
/// <param name="Place">Station or end.</param>
/// <param name="Station">Distance from the left end.</param>
/// <param name="Before">What is known now; at an end, by the fitted line.</param>
/// <param name="After">The same, moved by the lever geometry.</param>
public sealed record Landing(LandingPlace Place, Length Station, Knowledge Before, Knowledge After)
{
    /// <summary>
    /// What is really known now, where <see cref="Before"/> is an estimate within it or contact is counted on more; else the same.
    /// </summary>
    public Knowledge Known { get; init; } = Before;

    /// <summary>The least that may be there now, which contact is counted on; none where nothing bounds it.</summary>
    public Length? LeastBefore { get; init; }

    /// <summary>The same after turning, every step that closes at its most and every one that opens at its least.</summary>
    public Length? LeastAfter { get; init; }

    /// <summary>The line that it lies on, where the task names several.</summary>
    public int? Line { get; init; }

    /// <summary>
    /// How far the prediction may be off: h + abs(n)·e + (d + e)·abs(cR - cL)·5 mm/(b - a), h how far what is known now reaches from
    /// <see cref="Before"/> (U of a measured value), n the steps as they count here by the lever, e the doubt of one step, and the
    /// last term that the place is met within 5 mm by the next reading. Added and not in quadrature: a step that was learned was
    /// learned from the same readings (an upper bound, JCGM 100:2008, note 1 to 5.2.2). None where what is known is open.
    /// </summary>
    /// <param name="adjusters">What is turned.</param>
    /// <param name="leftSteps">Net steps on the left.</param>
    /// <param name="rightSteps">Net steps on the right.</param>
    /// <param name="stepDoubt">How far one step may be off, zero or more.</param>
    public Length? Doubt(AdjusterPair adjusters, int leftSteps, int rightSteps, Length stepDoubt) =>
        Reach is { } reach
            ? Geometry.Rounding.ToLength(
                reach.Millimetres + OfTheSteps(adjusters, leftSteps, rightSteps, stepDoubt)
            )
            : null;

    /// <summary>The same without h: how far an end of what is known may be off after the steps.</summary>
    /// <param name="adjusters">What is turned.</param>
    /// <param name="leftSteps">Net steps on the left.</param>
    /// <param name="rightSteps">Net steps on the right.</param>
    /// <param name="stepDoubt">How far one step may be off, zero or more.</param>
    public Length DoubtOfTheSteps(AdjusterPair adjusters, int leftSteps, int rightSteps, Length stepDoubt) =>
        Geometry.Rounding.ToLength(OfTheSteps(adjusters, leftSteps, rightSteps, stepDoubt));

    private decimal OfTheSteps(AdjusterPair adjusters, int leftSteps, int rightSteps, Length stepDoubt)
    {
        var moved =
            adjusters.Movement(leftSteps, rightSteps, Station).Millimetres / adjusters.Step.Millimetres;
        var slope =
            (adjusters.Step + stepDoubt).Millimetres
            * Math.Abs(rightSteps - leftSteps)
            / (adjusters.RightAt - adjusters.LeftAt).Millimetres;
        return (Math.Abs(moved) * stepDoubt.Millimetres) + (slope * MetWithin);
    }

    /// <summary>How far what is known now reaches from <see cref="Before"/>; none where it is open.</summary>
    public Length? Reach =>
        Known.AsInterval() is { Lower: { } lower, Upper: { } upper } && Before.Middle is { } middle
            ? Length.Max(upper.Value - middle, middle - lower.Value)
            : null;

    // As near as a station has to be to be taken for a gauging station, or for an end.
    private static decimal MetWithin => Geometry.WidthFit.Near.Millimetres;
}
