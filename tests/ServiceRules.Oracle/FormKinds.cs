using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Rules.Model;

namespace ServiceRules.Oracle;

/// <summary>The form of a reel along its length, rollers on a plate, and what a step of the clearance moved.</summary>
internal static class FormKinds
{
    /// <summary>
    /// The middle less the mean of the ends, from three places: within the sheet's limit, and half of it within the room that
    /// the limits of the gap leave.
    /// </summary>
    public static Possible Barrel(Facts facts, UnitWork unit, RuleDecision decision)
    {
        var sheet = facts.Book.Sheet(unit.Sheet)!;
        var stated = sheet.Of(MeasuredQuantity.ReelDiameter)?.Barrel;
        var (lower, upper) = (
            sheet.Of(MeasuredQuantity.Clearance)?.Lower,
            sheet.Of(MeasuredQuantity.Clearance)?.Upper
        );
        if (stated is null && (lower is null || upper is null))
        {
            return Possible.NotApplicable;
        }

        var spots = new Spots(facts, unit, MeasuredQuantity.ReelDiameter);
        if (!spots.IsPlain || Blades.Named(unit, MeasuredQuantity.ReelDiameter).Count > 0)
        {
            return Possible.Judged;
        }

        if (spots.IsContested || spots.All.Any(s => s.State == SpotState.Conflicting))
        {
            // Three places at least, of which those that are contested count under every choice.
            return spots.All.Count < 3 ? Possible.Unproven : Possible.NeverMet;
        }

        if (spots.Known.Count != spots.All.Count)
        {
            return spots.Known.Count < 3 ? Possible.Unproven : Possible.Judged;
        }

        if (spots.Known.Count < 3)
        {
            return Possible.Unproven;
        }

        if (Line.Through(spots) is not { HasIntervals: false } line)
        {
            return Possible.Judged;
        }

        if (!line.Tells(0) || !line.Tells(spots.Width))
        {
            return Possible.Unproven;
        }

        // Stations close together tell no bow: half the width apart, and one between in the middle half.
        decimal first = spots.Known.Min(s => s.At!.Value);
        decimal span = spots.Known.Max(s => s.At!.Value) - first;
        if (
            span * 2 < spots.Width
            || !spots.Known.Any(s => s.At >= first + (span / 4) && s.At <= first + (span * 3 / 4))
        )
        {
            return Possible.Unproven;
        }

        var bow = line.Bow(spots.Width);
        var system = spots.Known[0].System;
        var sum = spots.BothStationsKnown ? Possible.Met : Possible.Unproven;
        if (stated?.In(system).Millimetres is { } most)
        {
            sum = sum.And(bow.Within(-most, most, decision));
        }

        if (lower is not null && upper is not null)
        {
            decimal room = upper.In(system).Millimetres - lower.In(system).Millimetres;
            sum = sum.And(bow.Within(-2 * room, 2 * room, decision));
        }

        return sum;
    }

    /// <summary>Front left less front right, less the same of the rear, each over the width; no gap is less than nothing.</summary>
    public static Possible Twist(Facts facts, UnitWork unit, RuleDecision decision)
    {
        if (facts.Book.Sheet(unit.Sheet)!.Of(MeasuredQuantity.FrontRollerOnPlate)?.Twist is not { } limit)
        {
            return Possible.NotApplicable;
        }

        var front = new Spots(facts, unit, MeasuredQuantity.FrontRollerOnPlate);
        var rear = new Spots(facts, unit, MeasuredQuantity.RearRollerOnPlate);
        if (!front.IsPlain || !rear.IsPlain)
        {
            return Possible.Judged;
        }

        if (front.All.Count < 2 || rear.All.Count < 2)
        {
            return Possible.Unproven;
        }

        if (front.IsContested || rear.IsContested)
        {
            return Possible.NeverMet;
        }

        if (front.Known.Count < 2 || rear.Known.Count < 2)
        {
            return Possible.Unproven;
        }

        if (
            Line.Through(front) is not { Count: 2 } ahead
            || Line.Through(rear) is not { Count: 2 } behind
            || front.Known[0].System != rear.Known[0].System
        )
        {
            return Possible.Judged;
        }

        if (!ahead.Tells(0) || !ahead.Tells(front.Width) || !behind.Tells(0) || !behind.Tells(rear.Width))
        {
            return Possible.Unproven;
        }

        decimal most = limit.In(front.Known[0].System).Millimetres;
        var by = Amount
            .Sum([.. Across(behind, rear.Width, 1), .. Across(ahead, front.Width, -1)])
            .Within(-most, most, decision);
        bool allCount =
            front.All.Count == 2 && rear.All.Count == 2 && front.BothStationsKnown && rear.BothStationsKnown;
        return allCount ? by
            : by == Possible.NotMet ? Possible.NeverMet
            : Possible.Judged;
    }

    private static IEnumerable<(decimal Weight, Spot Spot)> Across(Line line, decimal width, decimal sign) =>
        line.At(width)
            .Zip(line.At(0))
            .Select(each =>
                (sign * (each.First.Weight - each.Second.Weight), NotBelowNothing(each.First.Spot))
            );

    private static Spot NotBelowNothing(Spot spot) =>
        spot.IsInterval ? spot with { Low = Math.Max(spot.Low ?? 0, 0) } : spot;

    /// <summary>
    /// One gauge reads a place, known steps are turned one way, and it reads the same place again: what a step moved. No opinion
    /// of more than one such trial, of feelers, or where anything else was done between.
    /// </summary>
    public static Possible Step(Facts facts, UnitWork unit, MeasuredQuantity quantity)
    {
        var sheet = facts.Book.Sheet(unit.Sheet)!;
        if (quantity != MeasuredQuantity.Clearance || sheet.Of(AdjusterKind.Clearance) is not { } adjuster)
        {
            return Possible.Any;
        }

        var read = unit
            .Entries.Select((entry, index) => (Reading: entry as Reading, Index: index))
            .Where(r => r.Reading?.Quantity == quantity)
            .ToList();
        if (adjuster.Step is null || adjuster.LeftAt is null || adjuster.RightAt is null)
        {
            return Possible.Any;
        }

        if (
            read.Any(r =>
                r.Reading!.Observed is not Observation.Measured
                || r.Reading.Station is null
                || r.Reading.Blade is not null
                || facts.Gauge(r.Reading) is not { } gauge
                || Gauges.IsUnfit(r.Reading, facts)
                || Gauges.IsUnknown(gauge)
            )
        )
        {
            return Possible.Any;
        }

        var spots = new Spots(facts, unit, quantity);
        var pairs = read.GroupBy(r => spots.Place(r.Reading!.Station))
            .SelectMany(at => at.Zip(at.Skip(1), (a, b) => (At: at.Key!.Value, First: a, Second: b)))
            .Where(p => Between(unit, p.First.Index, p.Second.Index).Any())
            .ToList();
        if (pairs.Count == 0)
        {
            return Possible.NotApplicable;
        }

        if (pairs.Count > 2 || read.GroupBy(r => spots.Place(r.Reading!.Station)).Any(g => g.Count() > 2))
        {
            return Possible.Any;
        }

        var told = pairs
            .Select(p =>
                Trial(
                    facts,
                    unit,
                    adjuster,
                    p.At,
                    (p.First.Index, p.First.Reading!),
                    (p.Second.Index, p.Second.Reading!)
                )
            )
            .ToList();
        if (told.Any(t => t is null))
        {
            return Possible.Any;
        }

        var (moved, either) = told[0]!.Value;
        if (told.Count == 1)
        {
            return Against(adjuster.Step, moved, either);
        }

        // Two places that exclude one another tell no step; what two that agree tell together is not asked here.
        var (other, otherEither) = told[1]!.Value;
        return Math.Abs(moved - other) > either + otherEither + Near ? Possible.Unproven : Possible.Any;
    }

    /// <summary>What a step moved at one place, and how far that may be off; null where no opinion is held of it.</summary>
    private static (double Moved, double Either)? Trial(
        Facts facts,
        UnitWork unit,
        Adjuster adjuster,
        decimal where,
        (int Index, Reading Reading) before,
        (int Index, Reading Reading) after
    )
    {
        var between = Between(unit, before.Index, after.Index).ToList();
        if (
            between.Any(e =>
                e
                    is not Adjustment
                    {
                        Adjuster: AdjusterKind.Clearance,
                        Amount: AdjustmentAmount.Steps,
                        Direction: not null
                    }
            )
            || between.Cast<Adjustment>().Select(t => t.Direction).Distinct().Count() > 1
            || before.Reading.Instrument != after.Reading.Instrument
        )
        {
            return null;
        }

        decimal from = adjuster.LeftAt!.Value.Millimetres;
        decimal to = adjuster.RightAt!.Value.Millimetres;
        decimal steps = between
            .Cast<Adjustment>()
            .Sum(t =>
                ((AdjustmentAmount.Steps)t.Amount).Count
                * (t.Direction == AdjustDirection.Open ? 1 : -1)
                * (
                    t.Side == Side.Both ? 1
                    : t.Side == Side.Left ? (to - where) / (to - from)
                    : (where - from) / (to - from)
                )
            );
        // Near the pivot the reading tells more of the gauge than of the step.
        if (Math.Abs(steps) < 1m)
        {
            return null;
        }

        var first = ((Observation.Measured)before.Reading.Observed).Value;
        var second = ((Observation.Measured)after.Reading.Observed).Value;
        var gauge = facts.Gauge(before.Reading);
        double square = Gauges.Squares(gauge, first).Own + Gauges.Squares(gauge, second).Own;
        var scatter = Gauges.Scatter(gauge);
        return (
            (double)((second.Value.Millimetres - first.Value.Millimetres) / steps),
            Coverage.Expanded(square - (2 * scatter.Square), [(2 * scatter.Square, scatter.Degrees)])
                / (double)Math.Abs(steps)
        );
    }

    private static Possible Against(DualPrint stated, double moved, double either)
    {
        var sum = Possible.None;
        // Which print of the step is meant is not asked here: both are allowed.
        foreach (var print in (UnitSystem[])[UnitSystem.Inch, UnitSystem.Metric])
        {
            double step = (double)stated.In(print).Millimetres;
            double off = Math.Abs(moved - step);
            sum |= off > either - Near ? Possible.NotMet : Possible.None;
            sum |= off < either + Near && either < (step / 2) + Near ? Possible.Met : Possible.None;
            sum |= off < either + Near && either > (step / 2) - Near ? Possible.NotApplicable : Possible.None;
        }

        return sum;
    }

    // Nearer than this to a border naive arithmetic does not decide.
    private const double Near = 0.000001;

    /// <summary>What was turned, ground or fitted between two entries.</summary>
    private static IEnumerable<BenchEntry> Between(UnitWork unit, int from, int until) =>
        unit.Entries.Skip(from + 1).Take(until - from - 1).Where(e => e is not Reading);
}
