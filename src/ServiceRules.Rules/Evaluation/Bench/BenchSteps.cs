using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Bench;

/// <summary>Adjustments in steps, and what they did to the gap at a station through the levers of the adjuster.</summary>
internal static class BenchSteps
{
    // More than any adjuster has; keeps the arithmetic of hostile records in range.
    private const int Most = 100_000;

    /// <summary>Whole steps, a distance rounded up to the next step; none when the amount is not known in steps.</summary>
    public static int? CountOf(Adjustment adjustment, LimitSheet sheet) =>
        adjustment.Amount switch
        {
            AdjustmentAmount.Steps steps => Math.Min(steps.Count, Most),
            AdjustmentAmount.Distance distance => StepOf(adjustment.Adjuster, sheet) is { } step
                ? (int)
                    Math.Min(decimal.Ceiling(distance.Value.Value.Abs.Millimetres / step.Millimetres), Most)
                : null,
            _ => null,
        };

    /// <summary>
    /// The signed movement of the quantity at a station by counted steps; none when direction or the places of the adjusters are
    /// not stated, or the amount is not known in steps: a distance is what somebody wished to turn.
    /// </summary>
    public static Length? MovementAt(Length station, Adjustment adjustment, LimitSheet sheet)
    {
        if (AtAdjuster(adjustment, sheet) is not { } moved)
        {
            return null;
        }

        if (adjustment.Side is Side.Both)
        {
            return moved;
        }

        if (
            sheet.Of(adjustment.Adjuster) is not { LeftAt.Value: var left, RightAt.Value: var right }
            || left >= right
        )
        {
            return null;
        }

        var arm = adjustment.Side is Side.Left ? right - station : station - left;
        return Length.FromMillimetres(moved.Millimetres * arm.Millimetres / (right - left).Millimetres);
    }

    private static Length? AtAdjuster(Adjustment adjustment, LimitSheet sheet)
    {
        Length? amount = adjustment.Amount switch
        {
            AdjustmentAmount.Steps steps => StepOf(adjustment.Adjuster, sheet) * Math.Min(steps.Count, Most),
            _ => null,
        };
        return adjustment.Direction switch
        {
            AdjustDirection.Open or AdjustDirection.Raise => amount,
            AdjustDirection.Close or AdjustDirection.Lower => -amount,
            _ => null,
        };
    }

    private static Length? StepOf(AdjusterKind kind, LimitSheet sheet) =>
        sheet.Of(kind)?.OneStep is { } step && step > Length.Zero ? step : null;
}
