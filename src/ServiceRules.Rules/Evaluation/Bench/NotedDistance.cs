using System.Collections.Immutable;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Bench;

/// <summary>
/// What a turn noted as a distance is worth: it is what somebody wished to turn. What it moved only readings before and after it
/// tell, and where those contradict it nothing is counted on that adjuster.
/// </summary>
internal static class NotedDistance
{
    // A screw turned by eye may come out some way off; from half of it less or more it is told (common practice, no source).
    private const decimal FarOff = 0.5m;

    /// <summary>
    /// Whether readings before and after prove that what was noted is not what it moved, and no counted steps were tried at that
    /// place since. Of an adjuster in steps any proven difference counts, since what is counted next may touch; of a screw turned
    /// by eye what is far off.
    /// </summary>
    public static bool IsContradicted(UnitFrame unit, AdjusterKind kind)
    {
        ImmutableArray<DistanceTried> standing =
        [
            .. unit.DistancesTried.Where(tried =>
                tried.Adjuster == kind && !IsMadeGood(tried, unit.StepsTried)
            ),
        ];
        return Contradicts(standing, unit.Sheet.Of(kind));
    }

    /// <summary>
    /// Adjusters in steps of which some noted distance is disproved: how many steps it was nobody knows, whatever was done since.
    /// </summary>
    public static ImmutableHashSet<AdjusterKind> Uncounted(
        ImmutableArray<DistanceTried> tried,
        LimitSheet sheet
    ) =>
        [
            .. tried
                .GroupBy(each => each.Adjuster)
                .Where(own =>
                    sheet.Of(own.Key) is { Step: not null } adjuster && Contradicts([.. own], adjuster)
                )
                .Select(own => own.Key),
        ];

    /// <summary>
    /// The ends of what distances that were read to be as noted leave of a step, at each place for itself: whoever notes a distance
    /// counts it in steps of the sheet, and a step may be off as much. What leaves more than half of it either way tells nothing.
    /// </summary>
    public static ImmutableArray<Length> Possible(UnitFrame unit, AdjusterKind kind, Length stated) =>
        [
            .. Alone(unit.DistancesTried.Where(tried => tried.Adjuster == kind))
                .Select(learned => learned.PerStep.AsInterval())
                .Where(known => known.Width <= DistanceTried.AsNoted)
                .SelectMany(known => new[] { known.Lower!.Value.Value, known.Upper!.Value.Value })
                .Select(share => stated * share.Millimetres),
        ];

    /// <summary>Far from what was noted, either way.</summary>
    public static bool IsFarOff(LearnedStep learned) =>
        learned.PerStep.AsInterval().Upper?.Value < DistanceTried.AsNoted * FarOff
        || learned.PerStep.AsInterval().Lower?.Value > DistanceTried.AsNoted * (1 + FarOff);

    private static bool Contradicts(ImmutableArray<DistanceTried> tried, Adjuster? adjuster)
    {
        if (adjuster?.Step is null)
        {
            return Alone(StepInForce.LastByPlace(tried)).Any(IsFarOff)
                || (Together(tried) is { } together && IsFarOff(together));
        }

        return LearnedStep.Differ([.. tried.Select(each => each.Trial)])
            || Alone(tried).Any(IsOther)
            || (Together(tried) is { } all && IsOther(all));
    }

    private static bool IsOther(LearnedStep learned) =>
        learned.Against(DistanceTried.AsNoted) is not StepAnswer.Agrees;

    private static IEnumerable<LearnedStep> Alone(IEnumerable<DistanceTried> each) =>
        each.Select(tried => LearnedStep.From([tried.Trial])).OfType<LearnedStep>();

    private static LearnedStep? Together(ImmutableArray<DistanceTried> tried) =>
        LearnedStep.From([.. tried.Select(each => each.Trial)]);

    private static bool IsMadeGood(DistanceTried tried, ImmutableArray<StepsTried> steps) =>
        steps.Any(each =>
            each.Adjuster == tried.Adjuster
            && each.Quantity == tried.Quantity
            && each.Station == tried.Station
            && each.ReadFrom >= tried.ReadAt
        );
}
