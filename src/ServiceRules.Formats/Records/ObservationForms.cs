using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;

namespace ServiceRules.Formats.Records;

/// <summary>Which observations of a quantity are possible at all.</summary>
internal static class ObservationForms
{
    // A reel unit has no part this long; beyond it a unit or a decimal point slipped.
    private static readonly Length Longest = Length.FromMillimetres(5_000m);

    public const string Accepted =
        "a length or feeler for gaps, heights and wear; contact for clearance and brush-gap; paper for clearance and edge; "
        + "an angle for attitude; a condition for bearing-play, attitude, edge and guards";

    public static bool Suits(MeasuredQuantity quantity, Observation observed) =>
        observed switch
        {
            Observation.Measured or Observation.FeelerTest => quantity
                is not (MeasuredQuantity.Attitude or MeasuredQuantity.Edge or MeasuredQuantity.Guards),
            Observation.MeasuredAngle => quantity is MeasuredQuantity.Attitude,
            Observation.Contact => quantity is MeasuredQuantity.Clearance or MeasuredQuantity.BrushGap,
            Observation.Paper => quantity is MeasuredQuantity.Clearance or MeasuredQuantity.Edge,
            _ => quantity
                is MeasuredQuantity.BearingPlay
                    or MeasuredQuantity.Attitude
                    or MeasuredQuantity.Edge
                    or MeasuredQuantity.Guards,
        };

    /// <summary>Whether a length can be a value of the quantity: only the front roller is read either side of its datum.</summary>
    public static bool IsPossible(MeasuredQuantity quantity, PrintedLength value) =>
        value.Value.Abs <= Longest
        && (quantity is MeasuredQuantity.FrontRoller || value.Value >= Length.Zero);
}
