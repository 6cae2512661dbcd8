using ServiceRules.Domain.Conformity;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Remedies;

/// <summary>
/// From contact of unknown depth no count to free is invented: "open one step at a time, both sides alternately,
/// until it just frees at both ends, then open N more on each side". When it just frees, each end has a gap
/// above zero and of at most one step; N more on both sides add N steps everywhere.
/// </summary>
/// <param name="ThenOpen">N, the steps on each side after it just frees at both ends; zero or more.</param>
/// <param name="Predicted">The gap at either end afterwards: above N steps, at most N + 1 steps.</param>
/// <param name="IsInsideZone">Whether every gap it can leave lies in the zone.</param>
public sealed record ContactRelease(int ThenOpen, LengthInterval Predicted, bool IsInsideZone)
{
    /// <summary>
    /// The fewest N that certainly lands in the zone; when there is none, the fewest that reaches its lower limit,
    /// to be read and set again from there.
    /// </summary>
    /// <param name="step">One adjuster step, above zero.</param>
    /// <param name="zone">Where the gap must land.</param>
    public static ContactRelease For(Length step, ToleranceZone zone)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(step.Millimetres, nameof(step));
        var count = 0;
        while (count < AdjusterPair.MostSteps && step * count < zone.Lower)
        {
            count++;
        }

        _ = LengthInterval.TryCreate(
            IntervalEnd.Open(step * count),
            IntervalEnd.Closed(step * (count + 1)),
            out var predicted
        );
        var inside = !(step * count < zone.Lower) && !(step * (count + 1) > zone.Upper);
        return new(count, predicted ?? LengthInterval.Unbounded, inside);
    }
}
