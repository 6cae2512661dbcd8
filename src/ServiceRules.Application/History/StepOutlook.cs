using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;

namespace ServiceRules.Application.History;

/// <summary>What one step of an adjuster of a unit really does, learned over jobs.</summary>
/// <param name="Adjuster">What was turned.</param>
/// <param name="Quantity">What was read before and after.</param>
/// <param name="IsCarried">The quantity is carried along by another's adjuster; the sheet states the most it may.</param>
/// <param name="Trials">Trials over all jobs.</param>
/// <param name="Jobs">Jobs they come from.</param>
/// <param name="Learned">What they come to; null: nothing bounded, or they contradict one another.</param>
/// <param name="Stated">What the sheet states; null: nothing.</param>
/// <param name="Answer">Held against it; null where there is nothing to hold.</param>
/// <param name="System">The units of the readings.</param>
public sealed record StepOutlook(
    AdjusterKind Adjuster,
    MeasuredQuantity Quantity,
    bool IsCarried,
    int Trials,
    int Jobs,
    LearnedStep? Learned,
    Length? Stated,
    StepAnswer? Answer,
    UnitSystem System
);
