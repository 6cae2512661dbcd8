using System.Collections.Immutable;
using System.Globalization;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Bench;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>
/// The units of a machine against one another, pair by pair: their mid-width values, or the ends that meet. The spread
/// is within its limit when every pair is.
/// </summary>
internal static class UnitSpread
{
    // Twelve units make 66 pairs; the worst few tell the story.
    private const int Shown = 6;

    public static CheckOutcome AcrossUnits(MeasuredQuantity quantity, Rule rule, JobFrame frame)
    {
        var subject = $"{Wording.Of(quantity)} across units";
        var units = frame.Units.Where(unit => unit.Sheet.Of(quantity)?.AcrossUnits is not null).ToList();
        if (units.Count < 2)
        {
            return Told.NotApplicable(
                $"{Wording.Sentence(subject)}: there are no two units with a limit to compare"
            );
        }

        var middles = units.ConvertAll(unit => (Unit: unit, Sides: Middles(unit, quantity)));
        var pairs =
            from first in Enumerable.Range(0, middles.Count)
            from second in Enumerable.Range(first + 1, middles.Count - first - 1)
            from left in middles[first].Sides
            from right in middles[second].Sides
            select (
                Left: left,
                Right: right,
                Most: Tighter(
                    middles[first].Unit.Sheet.Of(quantity)!.AcrossUnits!,
                    middles[second].Unit.Sheet.Of(quantity)!.AcrossUnits!
                )
            );
        return Outcome(subject, quantity, rule, frame, [.. pairs], units);
    }

    public static CheckOutcome AdjacentEnds(MeasuredQuantity quantity, Rule rule, JobFrame frame)
    {
        var subject = $"{Wording.Of(quantity)} where units meet";
        var row = frame
            .Units.Where(unit => unit.Work.Position is not null)
            .OrderBy(unit => unit.Work.Position)
            .ToList();
        var neighbours = row.Zip(row.Skip(1))
            .Where(pair => pair.Second.Work.Position == pair.First.Work.Position + 1)
            .Where(pair =>
                Limit(pair.First, quantity) is not null || Limit(pair.Second, quantity) is not null
            )
            .ToList();
        if (neighbours.Count == 0)
        {
            return Told.NotApplicable($"{Wording.Sentence(subject)}: no two neighbouring units have a limit");
        }

        var pairs =
            from pair in neighbours
            from left in Ends(pair.First, quantity, "right end", StationPlaces.Width(pair.First.Sheet))
            from right in Ends(pair.Second, quantity, "left end", Length.Zero)
            select (
                Left: left,
                Right: right,
                Most: Tighter(
                    Limit(pair.First, quantity) ?? Limit(pair.Second, quantity)!,
                    Limit(pair.Second, quantity) ?? Limit(pair.First, quantity)!
                )
            );
        var concerned = neighbours.SelectMany(pair => new[] { pair.First, pair.Second }).Distinct().ToList();
        return Outcome(subject, quantity, rule, frame, [.. pairs], concerned);
    }

    private static CheckOutcome Outcome(
        string subject,
        MeasuredQuantity quantity,
        Rule rule,
        JobFrame frame,
        ImmutableArray<(DifferenceSide Left, DifferenceSide Right, DualPrint Most)> pairs,
        List<UnitFrame> units
    )
    {
        var judged = pairs
            .Select(pair =>
                PlaceJudgement.Of(
                    pair.Right.IsAbove(pair.Left)
                        ? pair.Right.Above(pair.Left, quantity, $"{pair.Left.Name} to {pair.Right.Name}")
                        : pair.Left.Above(pair.Right, quantity, $"{pair.Left.Name} to {pair.Right.Name}"),
                    PrintedZone.Within(pair.Most),
                    rule.Decision
                )
            )
            .ToList();
        var outcome = JudgedPlaces.Outcome(
            subject,
            judged,
            [.. units.SelectMany(unit => ObstaclesOf(unit, quantity)).OrderBy(obstacle => obstacle.Gravity)],
            units.SelectMany(unit => UnitPlaces.Of(unit, quantity).Usable).SelectMany(place => place.Evidence)
        );
        return outcome with
        {
            Comparisons = [.. outcome.Comparisons.Take(Shown)],
            Remedy = outcome.Verdict switch
            {
                Verdict.NotMet => (Remedy?)MachineMatch.For(frame, quantity)?.OfMachine()
                    ?? new Remedy.Act(rule.Advice),
                // What a unit of the set is moved for anyway is not read again first.
                Verdict.Unproven => (
                    outcome.Reason is FindingReason.GaugeCannotProve
                    || units.SelectMany(unit => ObstaclesOf(unit, quantity)).Any()
                        ? null
                        : (Remedy?)MachineMatch.For(frame, quantity)?.OfMachine()
                ) ?? ReadAgainAll(outcome, quantity, units),
                _ => null,
            },
        };
    }

    private static Remedy.ReadAgain ReadAgainAll(
        CheckOutcome outcome,
        MeasuredQuantity quantity,
        List<UnitFrame> units
    )
    {
        var open = units
            .Where(unit => ObstaclesOf(unit, quantity).Any())
            .Select(unit => unit.Work.Id.Text)
            .ToImmutableArray();
        return new(
            quantity,
            open.IsEmpty
                ?
                [
                    .. outcome
                        .Comparisons.Where(compared => compared.Verdict == Verdict.Unproven)
                        .Select(compared => compared.Place),
                ]
                : open,
            ReadAgain.Because(outcome)
        );
    }

    private static IEnumerable<Obstacle> ObstaclesOf(UnitFrame unit, MeasuredQuantity quantity)
    {
        var places = UnitPlaces.Of(unit, quantity);
        return places
            .ObstaclesToALine([.. places.Lines()])
            .Take(1)
            .Select(obstacle => obstacle with { Place = unit.Work.Id.Text });
    }

    private static List<DifferenceSide> Middles(UnitFrame unit, MeasuredQuantity quantity) =>
        Sides(unit, quantity, unit.Work.Id.Text, line => line.Fit.Offset);

    private static List<DifferenceSide> Ends(
        UnitFrame unit,
        MeasuredQuantity quantity,
        string end,
        Length at
    ) => Sides(unit, quantity, $"{unit.Work.Id} {end}", line => line.Fit.At(at));

    /// <summary>One for each line: every blade where blades were named.</summary>
    private static List<DifferenceSide> Sides(
        UnitFrame unit,
        MeasuredQuantity quantity,
        string name,
        Func<KnownLine, Knowledge> value
    ) =>
        [
            .. UnitPlaces
                .Of(unit, quantity)
                .Lines()
                .Select(line =>
                    DifferenceSide.Of(
                        line.Blade is { } blade
                            ? string.Create(CultureInfo.InvariantCulture, $"{name}, blade {blade}")
                            : name,
                        line,
                        value
                    )
                ),
        ];

    private static DualPrint? Limit(UnitFrame unit, MeasuredQuantity quantity) =>
        unit.Sheet.Of(quantity)?.AdjacentEnds;

    private static DualPrint Tighter(DualPrint one, DualPrint other) =>
        one.Governing.Value <= other.Governing.Value ? one : other;
}
