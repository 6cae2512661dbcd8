using System.Collections.Immutable;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Bench;

/// <summary>
/// By how much one step may shift what it carries along: what this job's own readings before and after known steps leave
/// possible, where that is less than the sheet's largest shift or proves it too small; else the sheet's. Each side has its
/// own adjuster and is told by its own trials.
/// </summary>
internal sealed class ShiftsInForce
{
    private readonly ImmutableArray<ShiftLearned> told;

    private ShiftsInForce(
        ImmutableArray<ShiftLearned> learned,
        ImmutableArray<ShiftLearned> told,
        ImmutableHashSet<AdjusterKind> uncounted
    )
    {
        Learned = learned;
        this.told = told;
        Uncounted = uncounted;
    }

    public static ShiftsInForce OfSheet { get; } = new([], [], []);

    /// <summary>Adjusters whose turns noted as a distance stand for no number of steps, since readings disprove one of them.</summary>
    public ImmutableHashSet<AdjusterKind> Uncounted { get; }

    /// <summary>Those that stand in place of the sheet's.</summary>
    public ImmutableArray<ShiftLearned> Learned { get; }

    /// <summary>Whether nothing but the sheet says anything.</summary>
    public bool IsOfSheet => Learned.IsEmpty && told.IsEmpty && Uncounted.IsEmpty;

    /// <summary>Weighs what a bench log tells.</summary>
    /// <param name="sure">Trials of what each adjuster carries along, with gauges that prove something.</param>
    /// <param name="any">The same with any gauge: they count for readings that prove nothing met anyway, so that no doubt
    /// about a gauge softens a breach.</param>
    /// <param name="sheet">The sheet with its largest shifts.</param>
    /// <param name="distances">Turns noted as distances, with what readings tell of them.</param>
    public static ShiftsInForce From(
        ImmutableArray<StepsTried> sure,
        ImmutableArray<StepsTried> any,
        LimitSheet sheet,
        ImmutableArray<DistanceTried> distances
    ) => new(Weighed(sure, sheet), Weighed(any, sheet), NotedDistance.Uncounted(distances, sheet));

    /// <summary>The largest shift by one step; none where the sheet says that any turn makes readings stale.</summary>
    /// <param name="adjuster">What is turned.</param>
    /// <param name="side">At which end: left or right.</param>
    /// <param name="disturbance">What it does, by the sheet.</param>
    /// <param name="isDoubted">Whether it is of a reading that proves nothing met.</param>
    public Length? PerStep(AdjusterKind adjuster, Side side, Disturbance disturbance, bool isDoubted)
    {
        if (disturbance.ShiftPerStep is not { } stated)
        {
            return null;
        }

        foreach (var learned in isDoubted ? told : Learned)
        {
            if (
                learned.Adjuster == adjuster
                && learned.Side == side
                && learned.Quantity == disturbance.Quantity
            )
            {
                return learned.PerStep;
            }
        }

        return stated.Governing.Value.Abs;
    }

    private static ImmutableArray<ShiftLearned> Weighed(ImmutableArray<StepsTried> tried, LimitSheet sheet) =>
        [
            .. tried
                .GroupBy(each => (each.Adjuster, each.Quantity))
                .SelectMany(group => Weighed(group.Key.Adjuster, group.Key.Quantity, [.. group], sheet)),
        ];

    private static IEnumerable<ShiftLearned> Weighed(
        AdjusterKind adjuster,
        MeasuredQuantity quantity,
        ImmutableArray<StepsTried> tried,
        LimitSheet sheet
    )
    {
        var disturbance = sheet.Of(adjuster)?.Disturbs.FirstOrDefault(each => each.Quantity == quantity);
        if (disturbance?.ShiftPerStep?.Governing.Value.Abs is not { } stated)
        {
            return [];
        }

        Length? Told(params Side?[] of) =>
            PerStep([.. tried.Where(each => of.Contains(each.TellsOf)).Select(each => each.Trial)], stated);

        var (left, right) = (Told(Side.Left, Side.Both), Told(Side.Right, Side.Both));
        // What both did together frees neither side; a shift proven larger, of which neither is told alone, may be of either.
        if (Told(of: [null]) is { } together && together > stated && !(left > stated) && !(right > stated))
        {
            (left, right) = (together, together);
        }

        return new[] { (Side: Side.Left, PerStep: left), (Side: Side.Right, PerStep: right) }
            .Where(each => each.PerStep is not null)
            .Select(each => new ShiftLearned(adjuster, each.Side, quantity, each.PerStep!.Value));
    }

    /// <summary>
    /// What stands in place of the sheet's shift; none where the trials tell nothing that the sheet does not. Trials that
    /// exclude one another free nothing: the largest shift that any of them, or the sheet, leaves possible. What one trial alone
    /// proves is never undercut by the mean of all.
    /// </summary>
    private static Length? PerStep(ImmutableArray<StepTrial> trials, Length stated)
    {
        ImmutableArray<(Length Least, Length Most)> alone =
        [
            .. trials.Select(trial => Sizes([trial])).OfType<(Length Least, Length Most)>(),
        ];
        if (alone.IsEmpty)
        {
            return null;
        }

        var proven = alone.Max(each => each.Least);
        if (LearnedStep.Differ(trials))
        {
            var largest = alone.Max(each => each.Most);
            return largest > stated ? largest : null;
        }

        if (Sizes(trials) is not var (least, most))
        {
            return null;
        }

        (least, most) = (Length.Max(least, proven), Length.Max(most, proven));
        return most < stated || least > stated ? most : null;
    }

    /// <summary>The least and the largest size of a shift, either way, that trials leave possible.</summary>
    private static (Length Least, Length Most)? Sizes(ImmutableArray<StepTrial> trials) =>
        LearnedStep.From(trials)?.PerStep.AsInterval() is { Lower.Value: var lower, Upper.Value: var upper }
            ? (
                lower > Length.Zero || upper < Length.Zero ? Length.Min(lower.Abs, upper.Abs) : Length.Zero,
                Length.Max(lower.Abs, upper.Abs)
            )
            : null;
}
