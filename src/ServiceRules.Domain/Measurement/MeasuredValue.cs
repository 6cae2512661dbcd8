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
    private readonly IndependentErrors? _errors;

    /// <summary>What made it up, to be told where all of it is taken as known and reckoned with as one.</summary>
    private readonly IndependentErrors? _madeUpOf;

    /// <summary>
    /// U at 95.45 %: k·u, or more where a part of the errors by itself comes to more
    /// (<see cref="IndependentErrors"/>).
    /// </summary>
    public ExpandedUncertainty Expanded => Errors.Expanded;

    /// <summary>The independent errors behind u; one, where no more is known than u and its degrees of freedom.</summary>
    public IndependentErrors Errors =>
        _errors
        ?? (
            _madeUpOf is { } whole
                ? IndependentErrors.One(Uncertainty.Millimetres, DegreesOfFreedom, () => whole.Lines)
                : IndependentErrors.One(Uncertainty.Millimetres, DegreesOfFreedom)
        );

    /// <inheritdoc/>
    public override Length? Middle => Value;

    /// <inheritdoc/>
    public override Length? Least => Value;

    /// <inheritdoc/>
    public override Length? Greatest => Value;

    /// <summary>A length known exactly.</summary>
    public static MeasuredValue Exact(Length value) => new(value, StandardUncertainty.Zero);

    /// <summary>
    /// A value with these errors. Taken as known altogether they are kept as one, rounded as u is; else unrounded, since k falls
    /// as they add up, and what follows must not fall with it.
    /// </summary>
    internal static MeasuredValue With(Length value, IndependentErrors errors) =>
        new(value, errors, errors.AreAllKnown ? null : errors);

    private MeasuredValue(Length value, IndependentErrors whole, IndependentErrors? kept)
        : this(value, whole.Uncertainty, whole.DegreesOfFreedom) => (_errors, _madeUpOf) = (kept, whole);

    /// <inheritdoc/>
    public override Knowledge ShiftedBy(Length by, Length halfWidth)
    {
        if (halfWidth == Length.Zero)
        {
            return this with { Value = Value + by };
        }

        var movement = UncertaintyBudget.Of(
            UncertaintyContribution.WithinHalfWidth(UncertaintySource.Movement, halfWidth)
        );
        return With(Value + by, IndependentErrors.Together([Errors, movement.Errors]));
    }

    /// <summary>Whether both tell the same: the value, u, its degrees of freedom and U.</summary>
    public bool Equals(MeasuredValue? other) =>
        other is not null
        && Value == other.Value
        && Uncertainty == other.Uncertainty
        && DegreesOfFreedom == other.DegreesOfFreedom
        && Expanded == other.Expanded;

    /// <inheritdoc/>
    public override int GetHashCode() => HashCode.Combine(Value, Uncertainty, DegreesOfFreedom);

    /// <inheritdoc/>
    public override LengthInterval AsInterval() =>
        LengthInterval.Between(Value - Expanded.Value, Value + Expanded.Value);
}
