using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;

namespace ServiceRules.Formats.Vocabulary;

/// <summary>
/// How good a gauge may be certified beside the step that is counted of it. Beyond that a unit was mistaken or a digit slipped: nobody
/// shows steps of a hundredth of what the gauge is good for, or certifies a hundredth of what it shows.
/// </summary>
internal static class CertifiedBounds
{
    public const string Wrong = "does not fit the step that the gauge shows";

    public const string Accepted =
        "an `expandedUncertainty` from a hundredth of `resolution` to a hundred times it: look at the units of both; a finer `resolution` than gauges of the kind show counts as theirs";

    private const int Times = 100;

    /// <summary>
    /// Held against the step that counts: the one stated, no finer than gauges of the kind show; where none is stated, no finer than
    /// digits written down can claim, and how much coarser nobody knows yet.
    /// </summary>
    public static bool Hold(PrintedLength expanded, PrintedLength? step, InstrumentKind kind) =>
        step is null
            ? expanded.Value * Times >= GaugeStep.LeastWritten(expanded.System, kind)
            : GaugeStep.Believed(step, kind) is var counted
                && expanded.Value * Times >= counted
                && expanded.Value <= counted * Times;
}
