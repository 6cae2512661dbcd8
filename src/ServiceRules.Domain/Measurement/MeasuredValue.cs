using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Measurement;

/// <summary>A measured length with its standard uncertainty and degrees of freedom.</summary>
/// <param name="Value">The best estimate, exact as read or computed.</param>
/// <param name="Uncertainty">The combined standard uncertainty u.</param>
/// <param name="DegreesOfFreedom">The effective degrees of freedom of u.</param>
public sealed record MeasuredValue(
    Length Value,
    StandardUncertainty Uncertainty,
    DegreesOfFreedom DegreesOfFreedom = default
) : Knowledge
{
    /// <summary>U = k·u at 95.45 %.</summary>
    public ExpandedUncertainty Expanded => ExpandedUncertainty.From(Uncertainty, DegreesOfFreedom);

    /// <summary>A length known exactly.</summary>
    public static MeasuredValue Exact(Length value) => new(value, StandardUncertainty.Zero);

    /// <inheritdoc/>
    public override Knowledge ShiftedBy(Length by, Length halfWidth)
    {
        if (halfWidth == Length.Zero)
        {
            return this with { Value = Value + by };
        }

        var budget = UncertaintyBudget.Of(
            new(UncertaintySource.Reading, Uncertainty.Millimetres, DegreesOfFreedom),
            UncertaintyContribution.WithinHalfWidth(UncertaintySource.Movement, halfWidth)
        );
        return budget.Around(Value + by);
    }

    /// <inheritdoc/>
    public override LengthInterval AsInterval() =>
        LengthInterval.Between(Value - Expanded.Value, Value + Expanded.Value);
}
