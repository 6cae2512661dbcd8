using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;

namespace ServiceRules.Rules.Evaluation;

/// <summary>
/// By how much a step of one adjuster shifts another quantity at most, either way, told by readings of that quantity before
/// and after known steps of the same job.
/// </summary>
/// <param name="Adjuster">What was turned.</param>
/// <param name="Side">At which end: left or right.</param>
/// <param name="Quantity">What it carries along.</param>
/// <param name="PerStep">The largest shift by one step that the readings leave possible: abs(shift) + U; zero or more.</param>
public sealed record ShiftLearned(
    AdjusterKind Adjuster,
    Side Side,
    MeasuredQuantity Quantity,
    Length PerStep
);
