using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Remedies;

/// <summary>A predicted value at a place.</summary>
/// <param name="Place">Where.</param>
/// <param name="Before">As it is, not rounded.</param>
/// <param name="After">As it will be, not rounded.</param>
public sealed record PredictedGap(string Place, Length Before, Length After)
{
    /// <summary>How far <see cref="Before"/> may be off either way; none where nothing bounds it, or it is itself a bound.</summary>
    public Length? BeforeDoubt { get; init; }

    /// <summary>The same of <see cref="After"/>: the readings, the steps and the lever together.</summary>
    public Length? AfterDoubt { get; init; }
}
