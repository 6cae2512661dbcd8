using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Rules.Evaluation.Bench;

/// <summary>What one feeler tried says of the gap.</summary>
/// <param name="Thickness">Nominal thickness.</param>
/// <param name="Passes">Whether it passed.</param>
/// <param name="Interval">The gaps that this allows.</param>
/// <param name="Doubt">Why it cannot prove anything, or None.</param>
internal sealed record FeelerConstraint(
    Length Thickness,
    bool Passes,
    LengthInterval Interval,
    FindingReason Doubt
);
