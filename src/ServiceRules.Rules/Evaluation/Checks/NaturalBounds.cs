using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>The value that a quantity cannot pass: a gap, a width or a diameter is never below zero.</summary>
public static class NaturalBounds
{
    /// <summary>The bound; none for what is measured from something else.</summary>
    /// <param name="quantity">The quantity.</param>
    public static Length? Of(MeasuredQuantity quantity) =>
        quantity
            is MeasuredQuantity.HeightOfCut
                or MeasuredQuantity.GroomerHeight
                or MeasuredQuantity.FrontRoller
            ? null
            : Length.Zero;
}
