using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Bench;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>The difference between the two ends of one unit, by the line through its stations.</summary>
internal static class SideToSide
{
    public static CheckOutcome Evaluate(MeasuredQuantity quantity, Rule rule, JobFrame frame, UnitFrame unit)
    {
        var subject = $"{Wording.Of(quantity)}, side to side";
        if (unit.Sheet.Of(quantity)?.SideToSide is not { } most)
        {
            return Told.NotApplicable($"{Wording.Sentence(subject)}: the limit sheet states no limit");
        }

        var places = UnitPlaces.Of(unit, quantity);
        var lines = places.Lines().ToList();
        IEnumerable<PlaceJudgement> Judged(IEnumerable<KnownLine> along) =>
            along.Select(line =>
                PlaceJudgement.Of(Tilt(quantity, line), PrintedZone.Within(most), rule.Decision)
            );

        var contested = ContestedBreach.Among([places], believed => Judged(believed[0].Lines()));
        var outcome = JudgedPlaces.Outcome(
            subject,
            [.. Judged(lines), .. contested],
            places.ObstaclesToALine(lines),
            lines.SelectMany(line => line.Places).SelectMany(place => place.Evidence)
        );
        outcome = outcome with
        {
            Notices = [.. outcome.Notices, .. LineShape.Notices(quantity, lines, outcome.Verdict)],
            Remedy = outcome.Verdict switch
            {
                Verdict.NotMet when lines.Count == 0 => null,
                Verdict.NotMet
                    when AdjustedQuantity.FinelySetBy(quantity) is { } kind
                        && StepRepair.For(unit, kind) is { } repair => repair,
                Verdict.NotMet => NoMove.Of(unit, quantity, places, frame.Book)
                    ?? (Remedy?)MachineMatch.For(frame, quantity, unit)?.Of(unit)
                    ?? LimitRemedy.Moved(quantity, unit, places, AimOf(quantity, unit, lines[0])),
                Verdict.Unproven => LimitRemedy.ToProve(outcome, quantity, frame, unit, places),
                _ => null,
            },
        };
        return ContestedBreach.Told(outcome, contested, (quantity, places));
    }

    /// <summary>Tilt told from the higher end, so that the figure is positive.</summary>
    private static Asked Tilt(MeasuredQuantity quantity, KnownLine line)
    {
        var rises = !(line.Fit.Tilt.Middle < Length.Zero);
        var tilt = line.Fit.Tilt;
        return new(
            quantity,
            line.Blade is { } blade ? $"across, blade {blade}" : "across",
            rises ? "right end above left end by" : "left end above right end by",
            rises ? tilt : Negated.Of(tilt),
            line.System,
            line.Doubt,
            null
        )
        {
            IsReadInBoth = line.IsReadInBoth,
            Grown = GrownDoubt.OfLine(line, each => rises ? each.Fit.Tilt : Negated.Of(each.Fit.Tilt)),
        };
    }

    /// <summary>The target in force where there is one; else the height at mid-width stays and the ends go to it.</summary>
    private static Length AimOf(MeasuredQuantity quantity, UnitFrame unit, KnownLine line) =>
        unit.Targets.FirstOrDefault(target => target.Quantity == quantity)?.Target.Value
        ?? line.Fit.Offset.Middle
        ?? StationPlaces.Left(quantity, unit.Sheet)
        ?? Length.Zero;
}
