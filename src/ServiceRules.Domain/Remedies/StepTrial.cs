using ServiceRules.Domain.Geometry;
using ServiceRules.Domain.Measurement;

namespace ServiceRules.Domain.Remedies;

/// <summary>Known steps of one adjuster between two readings at one place, with nothing else disturbing them.</summary>
/// <param name="Steps">
/// The signed steps as they count at the place, by the lever left·(b - x)/(b - a) + right·(x - a)/(b - a); positive
/// opens or raises; never zero. A pure number.
/// </param>
/// <param name="Before">The reading before the steps; where it ended another trial, the same object.</param>
/// <param name="After">The reading after them.</param>
public sealed record StepTrial(decimal Steps, TrialReading Before, TrialReading After)
{
    /// <summary>The reading after the steps minus the reading before them; what one gauge shares drops out.</summary>
    public Knowledge Change =>
        KnownDifference.Between(After.Knowledge, Before.Knowledge, After.Shared, Before.Shared);

    /// <summary>A trial from the readings before and after.</summary>
    /// <param name="steps">See <see cref="Steps"/>.</param>
    /// <param name="before">What was known before the steps.</param>
    /// <param name="after">What is known after them.</param>
    public static StepTrial Between(decimal steps, TrialReading before, TrialReading after) =>
        steps == 0
            ? throw new ArgumentOutOfRangeException(nameof(steps), steps, "accepted is any number but zero")
            : new(steps, before, after);
}
