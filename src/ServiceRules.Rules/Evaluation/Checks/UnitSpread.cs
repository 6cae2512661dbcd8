using System.Collections.Immutable;
using System.Globalization;
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
            ) with
            {
                Notices = [.. UnitsLacking.Of(frame, quantity)],
            };
        }

        IEnumerable<Pair> Pairs(ImmutableArray<UnitPlaces> known)
        {
            var middles = units.Select((unit, at) => Middles(unit, known[at])).ToList();
            return from first in Enumerable.Range(0, middles.Count)
                from second in Enumerable.Range(first + 1, middles.Count - first - 1)
                from left in middles[first]
                from right in middles[second]
                select new Pair(
                    left,
                    right,
                    PrintedZone.Within(
                        units[first].Sheet.Of(quantity)!.AcrossUnits!,
                        units[second].Sheet.Of(quantity)!.AcrossUnits!
                    )
                );
        }

        var outcome = Outcome(subject, quantity, rule, frame, units, Pairs);
        return outcome with
        {
            Notices =
            [
                .. outcome.Notices,
                .. UnitsLacking.Of(frame, quantity),
                .. PositionsMissing(frame, quantity) is { } missing ? ImmutableArray.Create(missing) : [],
            ],
        };
    }

    /// <summary>Where ends that meet have a limit and nobody wrote down which units meet: told here, since there nothing is judged.</summary>
    private static string? PositionsMissing(JobFrame frame, MeasuredQuantity quantity)
    {
        var held = frame.Units.Where(unit => Limit(unit, quantity) is not null).ToList();
        var without = held.FindAll(unit => unit.Work.Position is null);
        return held.Count < 2 || without.Count == 0
            ? null
            : $"where units meet {Wording.Of(quantity)} has a limit, and is not judged: no position is stated of {Wording.Listed(without.ConvertAll(unit => unit.Work.Id.Text))}";
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

        var concerned = neighbours.SelectMany(pair => new[] { pair.First, pair.Second }).Distinct().ToList();
        IEnumerable<Pair> Pairs(ImmutableArray<UnitPlaces> known) =>
            from pair in neighbours
            let right = concerned.IndexOf(pair.First)
            let left = concerned.IndexOf(pair.Second)
            from end in Ends(pair.First, known[right], "right end", StationPlaces.Width(pair.First.Sheet))
            from beside in Ends(pair.Second, known[left], "left end", Length.Zero)
            select new Pair(
                end,
                beside,
                PrintedZone.Within(
                    Limit(pair.First, quantity) ?? Limit(pair.Second, quantity)!,
                    Limit(pair.Second, quantity) ?? Limit(pair.First, quantity)!
                )
            );

        return Outcome(subject, quantity, rule, frame, concerned, Pairs);
    }

    /// <summary>Units that a gauge which proves nothing read: no other unit is moved to match them before they were read again.</summary>
    private static Remedy.ReadAgain? DoubtedOfSet(List<UnitFrame> units, MeasuredQuantity quantity)
    {
        var doubted = units
            .Where(unit =>
                UnitPlaces
                    .Of(unit, quantity)
                    .Usable.Any(place =>
                        place.Doubt is FindingReason.GaugeUnfit or FindingReason.GaugeCannotRead
                    )
            )
            .Select(unit => unit.Work.Id.Text)
            .ToImmutableArray();
        return doubted.IsEmpty
            ? null
            : new(
                quantity,
                doubted,
                "read there with a gauge that proves nothing: read with a fit one first, since no unit is moved to match what such a gauge showed"
            );
    }

    private static CheckOutcome Outcome(
        string subject,
        MeasuredQuantity quantity,
        Rule rule,
        JobFrame frame,
        List<UnitFrame> units,
        Func<ImmutableArray<UnitPlaces>, IEnumerable<Pair>> pairs
    )
    {
        IEnumerable<PlaceJudgement> Judged(ImmutableArray<UnitPlaces> known) =>
            pairs(known).Select(pair => Judgement(pair, quantity, rule));

        ImmutableArray<UnitPlaces> places = [.. units.Select(unit => UnitPlaces.Of(unit, quantity))];
        var contested = ContestedBreach.Among(places, Judged);
        var outcome = JudgedPlaces.Outcome(
            subject,
            [.. Judged(places), .. contested],
            [.. units.SelectMany(unit => ObstaclesOf(unit, quantity)).OrderBy(obstacle => obstacle.Gravity)],
            places.SelectMany(each => each.Usable).SelectMany(place => place.Evidence)
        );
        outcome = outcome with
        {
            Comparisons = [.. outcome.Comparisons.Take(Shown)],
            Remedy = outcome.Verdict switch
            {
                Verdict.NotMet or Verdict.Unproven when RepairFirst(units, quantity) is { } repair => repair,
                Verdict.NotMet when ContestedRemedy.OfSet(units, quantity) is { } again => again,
                Verdict.NotMet when DoubtedOfSet(units, quantity) is { } again => again,
                Verdict.NotMet => (Remedy?)MachineMatch.For(frame, quantity)?.OfMachine()
                    ?? NoMove.OfSet(units, quantity, frame.Book)
                    ?? new Remedy.Act(rule.Advice),
                // What a unit of the set is moved for anyway is not read again first.
                Verdict.Unproven => (
                    outcome.Reason is FindingReason.GaugeCannotProve
                    || units.SelectMany(unit => ObstaclesOf(unit, quantity)).Any()
                        ? null
                        : NoMove.OfSet(units, quantity, frame.Book)
                            ?? DoubtedOfSet(units, quantity)
                            ?? (Remedy?)MachineMatch.For(frame, quantity)?.OfMachine()
                ) ?? ReadAgainAll(outcome, quantity, units),
                _ => null,
            },
        };
        return contested.IsEmpty
            ? outcome
            : ContestedBreach.Told(outcome, contested) with
            {
                Remedy = new Remedy.ReadAgain(
                    quantity,
                    [
                        .. units
                            .Zip(places)
                            .Where(each => !each.Second.Contested.IsEmpty)
                            .Select(each => each.First.Work.Id.Text),
                    ],
                    ContestedBreach.WhyAgain
                ),
            };
    }

    /// <summary>An adjuster of one of the units that does not do what it should; the set is matched after it does.</summary>
    private static Remedy.Act? RepairFirst(List<UnitFrame> units, MeasuredQuantity quantity) =>
        AdjustedQuantity.FinelySetBy(quantity) is { } kind
        && units.Find(unit => StepInForce.IsBroken(unit, kind)) is { } broken
            ? new($"on {broken.Work.Id}, {StepRepair.For(broken, kind)!.What}")
            : null;

    private static PlaceJudgement Judgement(Pair pair, MeasuredQuantity quantity, Rule rule)
    {
        var (left, right) = (pair.Left, pair.Right);
        var place = $"{left.Name} to {right.Name}";
        return PlaceJudgement.Of(
            right.IsAbove(left) ? right.Above(left, quantity, place) : left.Above(right, quantity, place),
            pair.Most,
            rule.Decision
        );
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
            ReadAgain.Because(outcome, quantity)
        );
    }

    private static IEnumerable<Obstacle> ObstaclesOf(UnitFrame unit, MeasuredQuantity quantity)
    {
        var places = UnitPlaces.Of(unit, quantity);
        return places
            .ObstaclesToALine([.. places.Lines()])
            .Take(1)
            .Select(obstacle =>
                obstacle with
                {
                    Place = unit.Work.Id.Text,
                    Lacking =
                        obstacle.Reason is not FindingReason.TooFewStations ? null
                        : obstacle.Station is null ? obstacle.Place
                        : "the gauging stations",
                }
            );
    }

    private static List<DifferenceSide> Middles(UnitFrame unit, UnitPlaces places) =>
        Sides(
            places,
            unit.Work.Id.Text,
            places.Width * 0.5m,
            (name, line) => DifferenceSide.Of(name, line, each => each.Fit.Offset)
        );

    private static List<DifferenceSide> Ends(UnitFrame unit, UnitPlaces places, string end, Length at) =>
        Sides(
            places,
            $"{unit.Work.Id} {end}",
            at,
            (name, line) =>
                line.ReadAt(at) is { } read
                    ? DifferenceSide.Of(name, read)
                    : DifferenceSide.Of(name, line, each => each.Fit.At(at))
        );

    /// <summary>One for each line: every blade where blades were named.</summary>
    private static List<DifferenceSide> Sides(
        UnitPlaces places,
        string name,
        Length at,
        Func<string, KnownLine, DifferenceSide> side
    ) =>
        [
            .. places
                .AllLines()
                .Where(line => line.Reaches(at))
                .Select(line =>
                    side(
                        line.Blade is { } blade
                            ? string.Create(CultureInfo.InvariantCulture, $"{name}, blade {blade}")
                            : name,
                        line
                    )
                ),
        ];

    private static DualPrint? Limit(UnitFrame unit, MeasuredQuantity quantity) =>
        unit.Sheet.Of(quantity)?.AdjacentEnds;

    /// <summary>Two that are held together, and how far apart they may be.</summary>
    private sealed record Pair(DifferenceSide Left, DifferenceSide Right, PrintedZone Most);
}
