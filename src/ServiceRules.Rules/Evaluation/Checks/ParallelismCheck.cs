using ServiceRules.Domain.Geometry;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Bench;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>
/// Parallelism over the width: how far any two of the distances from the datum depart, at every station and, by the line
/// through them, at both ends. The readings are distances from the datum already, taken by a gauge that rests on it, so that
/// the association the rule names has no datum left to fit; a pure tilt counts in full. It says by which zone the
/// straightness is told that stays when the tilt is taken out.
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
        IEnumerable<PlaceJudgement> Judged(IEnumerable<KnownLine> along) =>
            along.Select(line =>
                OverTheWidth.Judged(check.Quantity, line, places, PrintedZone.AtMost(most), rule.Decision)
            );

        var contested = ContestedBreach.Among([places], believed => Judged(believed[0].Lines()));
        var outcome = JudgedPlaces.Outcome(
            subject,
            [.. Judged(lines), .. contested],
            places.ObstaclesToALine(lines),
            lines.SelectMany(line => line.Places).SelectMany(place => place.Evidence)
        );
        var broken = lines.FindAll(line =>
            outcome.Comparisons.Any(compared =>
                compared.Verdict == Verdict.NotMet && compared.Place == OverTheWidth.PlaceOf(line)
            )
        );
        outcome = outcome with
        {
            Remedy = outcome.Verdict switch
            {
                Verdict.NotMet when broken.Count == 0 => null,
                Verdict.NotMet => Straightened(check, most, broken[0])
                    ?? (Remedy?)Squared(check.Quantity, unit, broken[0])
                    ?? new Remedy.Act(rule.Advice),
                Verdict.Unproven => (Remedy?)Likely(check, most, unit, outcome, places, lines)
                    ?? ReadAgain.For(outcome, check.Quantity, places),
                _ => null,
            },
            Notices = [.. outcome.Notices, .. LineShape.Notices(check.Quantity, lines, outcome.Verdict)],
        };
        return ContestedBreach.Told(outcome, contested, (check.Quantity, places));
    }

    /// <summary>
    /// What no squaring takes out: the width of the zone between two parallel lines, laid as the rule names, that holds all
    /// readings. Where that alone is more than the limit, the roller itself is at fault.
    /// </summary>
    private static Remedy.Act? Straightened(Check.Parallelism check, DualPrint most, KnownLine line)
    {
        if (!line.Places.All(place => place.Knowledge is MeasuredValue))
        {
            return null;
        }

        var zone = StraightnessZone.Of(
            [
                .. line.Places.Select(place => new StationPoint(
                    place.Station!.Value,
                    ((MeasuredValue)place.Knowledge!).Value
                )),
            ],
            check.Datum is DatumMethod.LeastSquares
                ? LineAssociation.LeastSquares
                : LineAssociation.MinimumZone
        );
        if (zone is null || zone.Width <= PrintedZone.AtMost(most).For(line.System, line.IsReadInBoth).Upper)
        {
            return null;
        }

        var laid =
            zone.Association is LineAssociation.LeastSquares ? "the least-squares line" : "the minimum zone";
        return new(
            $"{(LineShape.DoubtOf(line) is FindingReason.None ? string.Empty : LineShape.ReadFirst(line))}it is out of straight by {Wording.Of(zone.Width, line.System)} ({laid}), more than the limit: "
                + "squaring cannot take that out; straighten or replace it, then read it again at every station"
        );
    }

    /// <summary>What is more likely out than in is squared as what is proven to be; none where that would not help.</summary>
    private static Remedy.Move? Likely(
        Check.Parallelism check,
        DualPrint most,
        UnitFrame unit,
        CheckOutcome outcome,
        UnitPlaces places,
        List<KnownLine> lines
    ) =>
        outcome.WhyAgain is null
        && LikelyOut.Is(outcome, places.ObstaclesToALine(lines))
        && lines.Find(line => OverTheWidth.PlaceOf(line) == outcome.Comparisons[0].Place) is { } worst
        && Straightened(check, most, worst) is null
            ? Squared(check.Quantity, unit, worst)
            : null;

    /// <summary>The left side stays; the right adjuster takes the tilt out.</summary>
    private static Remedy.Move? Squared(MeasuredQuantity quantity, UnitFrame unit, KnownLine line)
    {
        if (AdjustedQuantity.FinelySetBy(quantity) is not { } kind || line.Fit.Tilt is not MeasuredValue tilt)
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
            LimitRemedy.Held(Length.FromMillimetres(right)),
            [.. ReadAgain.After(unit, [turned])]
        );
    }
}
