using ServiceRules.Domain.Geometry;
using ServiceRules.Domain.Measurement;

namespace ServiceRules.Domain.Remedies;

/// <summary>Known steps of one adjuster between two readings at one place, with nothing else disturbing them.</summary>
/// <param name="Steps">
/// The signed steps as they count at the place, by the lever left·(b - x)/(b - a) + right·(x - a)/(b - a); positive
/// opens or raises; never zero. A pure number.
/// </param>
/// <param name="Change">The reading after the steps minus the reading before them.</param>
public sealed record StepTrial(decimal Steps, Knowledge Change)
{
    /// <summary>A trial from the readings before and after.</summary>
    /// <param name="steps">See <see cref="Steps"/>.</param>
    /// <param name="before">What was known before the steps.</param>
    /// <param name="after">What is known after them.</param>
    /// <param name="ofBefore">What the reading before shares with all of its gauge.</param>
    /// <param name="ofAfter">What the reading after shares with all of its gauge; it drops out where it is the same gauge.</param>
    public static StepTrial Between(
        decimal steps,
        Knowledge before,
        Knowledge after,
        SharedError? ofBefore = null,
        SharedError? ofAfter = null
    ) =>
        steps == 0
            ? throw new ArgumentOutOfRangeException(nameof(steps), steps, "accepted is any number but zero")
            : new(steps, KnownDifference.Between(after, before, ofAfter, ofBefore));
}
