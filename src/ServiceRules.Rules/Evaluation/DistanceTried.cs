using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;

namespace ServiceRules.Rules.Evaluation;

/// <summary>
/// An adjuster turned by a noted distance between two readings of its own quantity at one place, all one way and nothing else
/// disturbing them: what tells whether it moved as it was said to.
/// </summary>
/// <param name="Adjuster">What was turned.</param>
/// <param name="Quantity">What was read before and after.</param>
/// <param name="Station">Where; none for a quantity of one place.</param>
/// <param name="Noted">The distance that was noted, on the busier side; more than nothing.</param>
/// <param name="Trial">
/// The same as it counts at the place, in steps of one millimetre, with the change that was read: what one such step really
/// obtained is the share of the noted distance, 1 mm where it moved as noted.
/// </param>
/// <param name="System">Units of the readings.</param>
public sealed record DistanceTried(
    AdjusterKind Adjuster,
    MeasuredQuantity Quantity,
    Length? Station,
    Length Noted,
    StepTrial Trial,
    UnitSystem System
)
{
    /// <summary>Index of the entry that read it after the turn.</summary>
    public int ReadAt { get; init; }

    /// <summary>What one step of such a trial obtains where the adjuster moves as noted.</summary>
    public static Length AsNoted { get; } = Length.FromMillimetres(1);
}
