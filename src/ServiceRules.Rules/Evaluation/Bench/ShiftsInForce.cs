using System.Collections.Immutable;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Bench;

/// <summary>
/// By how much one step may shift what it carries along: what this job's own readings before and after known steps leave
/// possible, where that is less than the sheet's largest shift or proves it too small; else the sheet's.
/// </summary>
internal sealed class ShiftsInForce
{
    private readonly ImmutableArray<ShiftLearned> told;

    private ShiftsInForce(ImmutableArray<ShiftLearned> learned, ImmutableArray<ShiftLearned> told)
    {
        Learned = learned;
        this.told = told;
    }

    public static ShiftsInForce OfSheet { get; } = new([], []);

    /// <summary>Those that stand in place of the sheet's.</summary>
    public ImmutableArray<ShiftLearned> Learned { get; }

    /// <summary>Whether nothing but the sheet says anything.</summary>
    public bool IsOfSheet => Learned.IsEmpty && told.IsEmpty;

    /// <summary>Weighs what a bench log tells.</summary>
    /// <param name="sure">Trials of what each adjuster carries along, with gauges that prove something.</param>
    /// <param name="any">The same with any gauge: they count for readings that prove nothing met anyway, so that no doubt
    /// about a gauge softens a breach.</param>
    /// <param name="sheet">The sheet with its largest shifts.</param>
    public static ShiftsInForce From(
        ImmutableArray<StepsTried> sure,
        ImmutableArray<StepsTried> any,
        LimitSheet sheet
    ) => any.IsEmpty ? OfSheet : new(Weighed(sure, sheet), Weighed(any, sheet));

    /// <summary>The largest shift by one step; none where the sheet says that any turn makes readings stale.</summary>
    /// <param name="adjuster">What is turned.</param>
    /// <param name="disturbance">What it does, by the sheet.</param>
    /// <param name="isDoubted">Whether it is of a reading that proves nothing met.</param>
    public Length? PerStep(AdjusterKind adjuster, Disturbance disturbance, bool isDoubted)
    {
        if (disturbance.ShiftPerStep is not { } stated)
        {
            return null;
        }

        foreach (var learned in isDoubted ? told : Learned)
        {
            if (learned.Adjuster == adjuster && learned.Quantity == disturbance.Quantity)
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
                .Select(group => Weighed(group.Key.Adjuster, group.Key.Quantity, [.. group], sheet))
                .OfType<ShiftLearned>(),
        ];

    private static ShiftLearned? Weighed(
        AdjusterKind adjuster,
        MeasuredQuantity quantity,
        ImmutableArray<StepsTried> tried,
        LimitSheet sheet
    )
    {
        var disturbance = sheet.Of(adjuster)?.Disturbs.FirstOrDefault(each => each.Quantity == quantity);
        if (
            disturbance?.ShiftPerStep?.Governing.Value.Abs is not { } stated
            || LearnedStep.From([.. tried.Select(each => each.Trial)])?.PerStep.AsInterval()
                is not { Lower.Value: var lower, Upper.Value: var upper }
        )
        {
            return null;
        }

        var greatest = Length.Max(lower.Abs, upper.Abs);
        var least =
            lower > Length.Zero || upper < Length.Zero ? Length.Min(lower.Abs, upper.Abs) : Length.Zero;
        return greatest < stated || least > stated ? new(adjuster, quantity, greatest) : null;
    }
}
