using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>
/// What a gap tried with feelers lacks: where all of them passed it is bounded from below alone, where none passed from above.
/// No finer gauge mends that, but the next feeler does.
/// </summary>
internal static class FeelersLacking
{
    public const string Thicker =
        "what was tried passes, which bounds it from below alone; try thicker feelers until one does not pass";

    public const string Thinner =
        "what was tried does not pass, which bounds it from above alone; try thinner feelers until one passes";

    /// <summary>None where both sides are bounded, or nothing is.</summary>
    /// <param name="known">What is known at the places.</param>
    /// <param name="bound">The value that the quantity cannot pass; it bounds as well as a feeler does.</param>
    public static string? Of(IEnumerable<Knowledge> known, Length? bound)
    {
        var intervals = known.OfType<LengthInterval>().ToList();
        return intervals.Exists(each => each is { Upper: null, Lower: not null }) ? Thicker
            : bound is null && intervals.Exists(each => each is { Lower: null, Upper: not null }) ? Thinner
            : null;
    }
}
