using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>
/// A difference that feelers bound: which way it goes is told only where that is certain, and where it is not, by how much either
/// way at most.
/// </summary>
internal static class EitherWay
{
    /// <summary>Whether a difference is said the other way round: its middle is below nothing, or nothing bounds it from below.</summary>
    public static bool IsBelow(Knowledge difference) =>
        difference.Middle is { } middle
            ? middle < Length.Zero
            : difference is LengthInterval { Lower: null, Upper: not null };

    /// <summary>Both ways in words; none where it is certain which way it goes, or nothing is said of the other.</summary>
    public static string? Of(Asked asked, UnitSystem system) =>
        asked is { SaidOtherWay: { } other, Knowledge: LengthInterval interval }
        && !(interval.Lower?.Value >= Length.Zero)
        && !(interval.Upper?.Value <= Length.Zero)
            ? $"{asked.Said} {Most(interval.Upper?.Value, system)}, or {other} {Most(-interval.Lower?.Value, system)}"
            : null;

    private static string Most(Length? most, UnitSystem system) =>
        most is { } known
            ? Wording.Of(LengthInterval.LessThan(known), system)
            : "an amount that nothing bounds";
}
