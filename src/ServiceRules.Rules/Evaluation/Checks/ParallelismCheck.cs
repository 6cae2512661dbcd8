using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Bench;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>
/// Parallelism over the width: the range of the distances from the datum at every station and, by the line through
/// them, at both ends. The readings are distances from the datum already, taken by a gauge that rests on it, so that
/// the association the rule names has nothing left to fit; a pure tilt counts in full.
/// </summary>
internal static class ParallelismCheck
{
    public static CheckOutcome Evaluate(Check.Parallelism check, Rule rule, JobFrame frame, UnitFrame? unit)
    {
        if (unit is null)
        {
            return Subjects.EachUnit(rule, frame);
        }

        var subject = $"{Wording.Of(check.Quantity)}, parallel";
        if (unit.Sheet.Of(check.Quantity)?.Parallelism is not { } most)
        {
            return Told.NotApplicable($"{Wording.Sentence(subject)}: the limit sheet states no limit");
        }

        var places = UnitPlaces.Of(unit, check.Quantity);
        var lines = places.Lines().ToList();
        var outcome = JudgedPlaces.Outcome(
            subject,
            lines.ConvertAll(line =>
                PlaceJudgement.Of(Range(check.Quantity, line), PrintedZone.AtMost(most), rule.Decision)
            ),
            places.ObstaclesToALine(lines),
            lines.SelectMany(line => line.Places).SelectMany(place => place.Evidence)
        );
        return outcome with
        {
            Remedy = outcome.Verdict switch
            {
                Verdict.NotMet => (Remedy?)Squared(check.Quantity, unit, lines[0])
                    ?? new Remedy.Act(rule.Advice),
                Verdict.Unproven => ReadAgain.For(outcome, check.Quantity, places),
                _ => null,
            },
        };
    }

    private static Asked Range(MeasuredQuantity quantity, KnownLine line) =>
        new(
            quantity,
            line.Blade is { } blade ? $"across, blade {blade}" : "across",
            "out of parallel by",
            line.Fit.Range,
            line.System,
            line.Doubt,
            Length.Zero
        );

    /// <summary>The left side stays; the right adjuster takes the tilt out.</summary>
    private static Remedy.Move? Squared(MeasuredQuantity quantity, UnitFrame unit, KnownLine line)
    {
        if (
            AdjustedQuantity.FinelySetBy(quantity) is not { } kind
            || line.Fit.Tilt is not MeasuredValue tilt
            || Bow(line) > tilt.Value.Abs
        )
        {
            return null;
        }

        var adjuster = unit.Sheet.Of(kind);
        var arm = (adjuster?.RightAt?.Value ?? line.Fit.Width) - (adjuster?.LeftAt?.Value ?? Length.Zero);
        var right = -tilt.Value.Millimetres * arm.Millimetres / line.Fit.Width.Millimetres;
        var turned = new Adjustment
        {
            Adjuster = kind,
            Side = Side.Right,
            Amount = new AdjustmentAmount.NotStated(),
        };
        return new(
            kind,
            Length.Zero,
            Length.FromMillimetres(Math.Round(right, 4)),
            [.. ReadAgain.After(unit, [turned])]
        );
    }

    private static Length Bow(KnownLine line) =>
        line.Fit.Bow is MeasuredValue bow ? bow.Value.Abs : Length.Zero;
}
