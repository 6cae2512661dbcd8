using ServiceRules.Domain.Quantities;

namespace ServiceRules.Formats.Vocabulary;

/// <summary>
/// How good a gauge may be certified beside the step it shows. Beyond that a unit was mistaken or a digit slipped: nobody shows
/// steps of a hundredth of what the gauge is good for, or certifies a hundredth of what it shows.
/// </summary>
internal static class CertifiedBounds
{
    public const string Wrong = "does not fit the step that the gauge shows";

    public const string Accepted =
        "an `expandedUncertainty` from a hundredth of `resolution` to a hundred times it: look at the units of both";

    private const int Times = 100;

    public static bool Hold(PrintedLength expanded, PrintedLength? step) =>
        step is null || (expanded.Value * Times >= step.Value && expanded.Value <= step.Value * Times);
}
