using ServiceRules.Domain.Conformity;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Rules.Model;

namespace ServiceRules.Oracle;

/// <summary>Checks that hold lengths against lengths.</summary>
internal static class LimitKinds
{
    public static Possible Limit(
        Facts facts,
        UnitWork unit,
        Check.LimitOnQuantity check,
        RuleDecision decision
    )
    {
        var sheet = facts.Book.Sheet(unit.Sheet)!;
        var limit = sheet.Of(check.Quantity);
        var spots = new Spots(facts, unit, check.Quantity);
        var replay = new BenchReplay(unit, sheet);
        if (check.Quantity == MeasuredQuantity.Clearance)
        {
            if (facts.School(unit.Sheet) == ContactSchool.LightContact)
            {
                return Possible.NotApplicable;
            }

            if (Sights.Contact(unit, replay, check.Quantity) is { } contact)
            {
                switch (contact)
                {
                    case { State: SpotState.Conflicting }:
                        return Possible.NeverMet;
                    case { State: SpotState.Known, Contact: not ContactState.None }:
                        return Sights.TouchesBesideAGap(facts, unit, check.Quantity)
                            ? Possible.NeverMet
                            : Possible.NotMet;
                }
            }
        }

        if (check.Against == LimitSource.WornBelow)
        {
            return Worn(facts, unit, spots, limit, decision);
        }

        if (spots.All.Count == 0)
        {
            return Possible.Unproven;
        }

        if (Blades.Named(unit, check.Quantity) is { Count: > 0 } blades)
        {
            return EachBlade(facts, unit, check, decision, blades);
        }

        return OfSpots(facts, unit, check, decision, spots);
    }

    /// <summary>Each blade by itself; a station is covered when every blade was read there.</summary>
    private static Possible EachBlade(
        Facts facts,
        UnitWork unit,
        Check.LimitOnQuantity check,
        RuleDecision decision,
        IReadOnlyCollection<int> blades
    )
    {
        if (!Blades.AllNamed(unit, check.Quantity))
        {
            return Possible.Judged;
        }

        var each = blades.Select(b => new Spots(facts, unit, check.Quantity, b)).ToList();
        if (each.Any(s => !s.NamesStations || s.All.Any(one => one.State != SpotState.Known || !one.Proves)))
        {
            return Possible.Judged;
        }

        bool everyBlade =
            blades.Count == facts.Book.Sheet(unit.Sheet)!.Blades && each.All(s => s.BothStationsKnown);
        var sum = everyBlade ? Possible.Met : Possible.Unproven;
        foreach (var one in each)
        {
            sum = sum.And(OfSpots(facts, unit, check, decision, one));
        }

        return sum;
    }

    private static Possible OfSpots(
        Facts facts,
        UnitWork unit,
        Check.LimitOnQuantity check,
        RuleDecision decision,
        Spots spots
    )
    {
        var limit = facts.Book.Sheet(unit.Sheet)!.Of(check.Quantity);
        var system = spots.All[^1].System;
        if (!spots.IsPlain || spots.All.Any(s => s.Tells && s.System != system))
        {
            return Possible.Judged;
        }

        return
            Zone(facts, unit, check, limit, spots.Known.Count > 0 ? spots.Known[^1].System : system)
                is not { } zone
            ? facts.OrdersOverlap
                ? Possible.Judged
                : Possible.Unproven
            : Places(spots, zone, check.Where, decision);
    }

    private static Possible Places(
        Spots spots,
        (decimal? Lower, decimal? Upper) zone,
        CheckedPlaces where,
        RuleDecision decision
    )
    {
        var sum = spots.Known.Count == 0 || !spots.BothStationsKnown ? Possible.Unproven : Possible.Met;
        foreach (var spot in spots.All)
        {
            sum = sum.And(
                spot.Tells && spot.Proves ? Amount.Of(spot).Within(zone.Lower, zone.Upper, decision)
                : spot.Believed is null ? Possible.NeverMet
                : EitherWay(spot.Believed, zone, decision)
            );
        }

        if (where == CheckedPlaces.Stations || spots.Known.Count < 2)
        {
            return sum;
        }

        if (spots.All.Any(s => s.Tells && !s.Proves))
        {
            // Of fit, unfit and unknown gauges mixed no opinion is held.
            return sum.And(spots.All.All(s => s.IsFit) ? Possible.Unproven : Possible.Judged);
        }

        return spots.IsContested ? sum.And(Possible.NeverMet)
            : Line.Through(spots) is { } line ? End(line, 0).And(End(line, spots.Width)).And(sum)
            : sum.And(Possible.Judged);

        Possible End(Line line, decimal at) =>
            line.IsRead(at) ? Possible.Met
            : line.Tells(at) ? Amount.Sum(line.At(at)).Within(zone.Lower, zone.Upper, decision)
            : Possible.Unproven;
    }

    /// <summary>Out where each by itself is out, and beyond the same limit; what is not known proves nothing.</summary>
    private static Possible EitherWay(
        IReadOnlyList<Spot> believed,
        (decimal? Lower, decimal? Upper) zone,
        RuleDecision decision
    )
    {
        if (believed.Count == 0)
        {
            return Possible.Unproven;
        }

        var each = believed.Select(s => Amount.Of(s).Within(zone.Lower, zone.Upper, decision)).ToList();
        bool allAbove = believed.All(s => (s.IsInterval ? s.Low : s.Value) >= zone.Upper);
        bool allBelow = believed.All(s => (s.IsInterval ? s.High : s.Value) <= zone.Lower);
        return !(allAbove || allBelow) || each.Any(p => !p.HasFlag(Possible.NotMet)) ? Possible.Unproven
            : each.All(p => p == Possible.NotMet) ? Possible.NotMet
            : Possible.NeverMet;
    }

    private static (decimal? Lower, decimal? Upper)? Zone(
        Facts facts,
        UnitWork unit,
        Check.LimitOnQuantity check,
        QuantityLimit? limit,
        UnitSystem system
    )
    {
        if (check.Against == LimitSource.Sheet)
        {
            return limit is null
                ? null
                : (limit.Lower?.In(system).Millimetres, limit.Upper?.In(system).Millimetres);
        }

        var order = facts.Target(unit, check.Quantity);
        var asked = facts
            .Record.Requested.LastOrDefault(r => r.Quantity == check.Quantity && facts.CardCounts(r, order))
            ?.Value;
        var target = asked ?? order?.Target;
        decimal?[] stated =
        [
            order?.Tolerance?.Value.Millimetres,
            limit?.ToleranceAboutTarget?.In(system).Millimetres,
        ];
        var tolerance = stated.Min();
        return target is null || tolerance is null
            ? null
            : (target.Value.Millimetres - tolerance, target.Value.Millimetres + tolerance);
    }

    private static Possible Worn(
        Facts facts,
        UnitWork unit,
        Spots spots,
        QuantityLimit? limit,
        RuleDecision decision
    )
    {
        bool set = unit.Entries.OfType<Adjustment>().Any(a => a.Adjuster == AdjusterKind.BedknifePosition);
        if (limit?.WornBelow is not { } worn)
        {
            return Possible.Any;
        }

        if (spots.All.Count == 0 || spots.Known.Count == 0)
        {
            return spots.IsContested ? Possible.Judged
                : spots.IsPlain && !set ? Possible.Unproven
                : Possible.Judged;
        }

        if (!spots.IsPlain || spots.All.Count != spots.Known.Count)
        {
            return Possible.Judged;
        }

        var above = Possible.None;
        foreach (var spot in spots.Known)
        {
            above = above.And(Amount.Of(spot).Within(worn.In(spot.System).Millimetres, null, decision));
            if (spot.Value == worn.In(spot.System).Millimetres)
            {
                return Possible.Judged;
            }
        }

        return !set ? above
            : above == Possible.Unproven ? Possible.NeverNotMet
            : Possible.Met;
    }

    public static Possible Parallelism(
        Facts facts,
        UnitWork unit,
        Check.Parallelism check,
        RuleDecision decision
    )
    {
        var limit = facts.Book.Sheet(unit.Sheet)!.Of(check.Quantity)?.Parallelism;
        var spots = new Spots(facts, unit, check.Quantity);
        return EndToEnd(spots, limit, (line, most) => Range(line, spots.Width, most, decision));
    }

    public static Possible Taper(Facts facts, UnitWork unit, RuleDecision decision)
    {
        var limit = facts.Book.Sheet(unit.Sheet)!.Of(MeasuredQuantity.ReelDiameter)?.Taper;
        return limit is null
            ? Possible.NotApplicable
            : Tilted(new(facts, unit, MeasuredQuantity.ReelDiameter), limit, decision);
    }

    public static Possible Sides(Facts facts, UnitWork unit, Check.Spread check, RuleDecision decision)
    {
        var limit = facts.Book.Sheet(unit.Sheet)!.Of(check.Quantity)?.SideToSide;
        return Tilted(new(facts, unit, check.Quantity), limit, decision);
    }

    private static Possible Tilted(Spots spots, DualPrint? limit, RuleDecision decision) =>
        EndToEnd(
            spots,
            limit,
            (line, most) =>
                line.HasIntervals && line.Count > 2
                    ? Possible.Judged
                    : line.Tilt(spots.Width).Within(-most, most, decision)
        );

    private static Possible EndToEnd(Spots spots, DualPrint? limit, Func<Line, decimal, Possible> judged)
    {
        if (limit is null)
        {
            return Possible.Any;
        }

        if (!spots.IsPlain)
        {
            return Possible.Judged;
        }

        if (Line.Through(spots) is not { } line)
        {
            return spots.Known.Count > 1 ? Possible.Judged
                : spots.IsContested ? Possible.NeverMet
                : spots.All.Any(s => !s.Proves) && spots.All.Any(s => !s.IsFit) ? Possible.NeverMet
                : Possible.Unproven;
        }

        if (!line.Tells(0) || !line.Tells(spots.Width))
        {
            return Possible.Unproven;
        }

        if (spots.IsContested)
        {
            return Possible.NeverMet;
        }

        var by = judged(line, limit.In(spots.Known[0].System).Millimetres);
        bool allCount = spots.All.Count == spots.Known.Count && spots.BothStationsKnown;
        return allCount ? by
            : by == Possible.NotMet ? Possible.NeverMet
            : Possible.Judged;
    }

    /// <summary>
    /// Every difference between two of the readings and the two ends of their line keeps the limit; and of three or more
    /// readings also those by the parabola, which can leave it open and show nothing out.
    /// </summary>
    private static Possible Range(Line line, decimal width, decimal most, RuleDecision decision)
    {
        decimal[] ends = [.. new[] { 0, width }.Where(x => !line.IsRead(x))];
        if (line.HasIntervals)
        {
            return line.Count == 2 && ends.Length == 2
                ? line.Tilt(width).Within(-most, most, decision)
                : Possible.Judged;
        }

        var byLine = EveryTwo(line.AsRead, line.Doubted, [.. ends.Select(x => line.At(x))], most, decision);
        if (line.Count == 2)
        {
            return byLine;
        }

        var byBow = EveryTwo(
            line.AsRead,
            line.DoubtedByParabola(width),
            [.. new[] { 0, width / 2, width }.Where(x => !line.IsRead(x)).Select(x => line.Bent(x, width))],
            most,
            decision
        );
        var open = byLine.And(byBow.HasFlag(Possible.Met) ? byBow | Possible.Unproven : Possible.Unproven);
        open = byLine.HasFlag(Possible.NotMet) ? open : open & ~Possible.NotMet;
        return byBow == Possible.Met ? byLine : open;
    }

    /// <summary>Of two readings no form of the line has a say; of a reading and an end it has.</summary>
    private static Possible EveryTwo(
        IReadOnlyList<Spot> read,
        IReadOnlyList<Spot> doubted,
        IReadOnlyList<IReadOnlyList<(decimal Weight, Spot Spot)>> told,
        decimal most,
        RuleDecision decision
    )
    {
        static IReadOnlyList<(decimal, Spot)> One(Spot spot) => [(1, spot)];
        var between = read.SelectMany((a, i) => read.Skip(i + 1).Select(b => Difference(One(a), One(b))));
        var toTold = doubted.SelectMany(a => told.Select(b => Difference(One(a), b)));
        var among = told.SelectMany((a, i) => told.Skip(i + 1).Select(b => Difference(a, b)));
        return between
            .Concat(toTold)
            .Concat(among)
            .Aggregate(Possible.Met, (sum, pair) => sum.And(Kept(pair)));

        // By chance it is asked how far the larger may lie above the smaller, and not by which way round.
        Possible Kept(Amount pair) =>
            decision.By is not DecisionRule.ByProbability ? pair.Within(-most, most, decision)
            : pair.Value < 0 ? pair.Within(-most, null, decision)
            : pair.Within(null, most, decision);
    }

    private static Amount Difference(
        IReadOnlyList<(decimal Weight, Spot Spot)> one,
        IReadOnlyList<(decimal Weight, Spot Spot)> other
    ) =>
        Amount.Sum([
            .. one.Concat(other.Select(o => (-o.Weight, o.Spot)))
                .GroupBy(t => t.Item2.At)
                .Select(g => (g.Sum(t => t.Item1), g.First().Item2)),
        ]);

    public static Possible AcrossUnits(Facts facts, Check.Spread check, RuleDecision decision)
    {
        var units = facts.Record.Units;
        if (units.Select(u => u.Sheet).Distinct().Count() > 1 || units.Any(u => !u.Tasks.IsEmpty))
        {
            return Possible.Any;
        }

        return check.Across == SpreadAcross.Units
            ? Middles(facts, check, decision)
            : Neighbours(facts, check, decision);
    }

    private static Possible Middles(Facts facts, Check.Spread check, RuleDecision decision)
    {
        var units = facts.Record.Units;
        var limit = facts.Book.Sheet(units[0].Sheet)!.Of(check.Quantity)?.AcrossUnits;
        if (limit is null || units.Length == 1)
        {
            return units.Length == 1 ? Possible.Met | Possible.NotApplicable : Possible.Any;
        }

        var sum = Possible.Met;
        for (int i = 0; i < units.Length; i++)
        {
            for (int j = i + 1; j < units.Length; j++)
            {
                sum = sum.And(
                    Apart(
                        facts,
                        check.Quantity,
                        units[i],
                        units[j],
                        s => s.Width / 2,
                        s => s.Width / 2,
                        limit,
                        decision
                    )
                );
            }
        }

        return sum;
    }

    private static Possible Neighbours(Facts facts, Check.Spread check, RuleDecision decision)
    {
        var sum = Possible.None;
        foreach (var left in facts.Record.Units)
        {
            var right = facts.Record.Units.FirstOrDefault(u => u.Position == left.Position + 1);
            var limit = facts.Book.Sheet(left.Sheet)!.Of(check.Quantity)?.AdjacentEnds;
            if (right is null || limit is null)
            {
                continue;
            }

            sum = sum.And(Apart(facts, check.Quantity, left, right, s => s.Width, _ => 0, limit, decision));
        }

        return sum == Possible.None ? Possible.NotApplicable : sum;
    }

    private static Possible Apart(
        Facts facts,
        MeasuredQuantity quantity,
        UnitWork one,
        UnitWork other,
        Func<Spots, decimal> oneAt,
        Func<Spots, decimal> otherAt,
        DualPrint limit,
        RuleDecision decision
    )
    {
        var a = new Spots(facts, one, quantity);
        var b = new Spots(facts, other, quantity);
        if (!a.IsPlain || !b.IsPlain)
        {
            return Possible.Judged;
        }

        if (Line.Through(a) is not { } first || Line.Through(b) is not { } second)
        {
            return (a.IsContested || b.IsContested ? Possible.NeverMet : Possible.Unproven)
                | (a.Known.Count * b.Known.Count > 0 ? Possible.Judged : Possible.Unproven);
        }

        if (
            a.Known[0].System != b.Known[0].System
            || a.All.Count != a.Known.Count
            || b.All.Count != b.Known.Count
            || !a.BothStationsKnown
            || !b.BothStationsKnown
        )
        {
            return Possible.Judged;
        }

        decimal most = limit.In(a.Known[0].System).Millimetres;
        return Amount
            .Sum([.. There(first, a, oneAt(a), 1), .. There(second, b, otherAt(b), -1)])
            .Within(-most, most, decision);

        static IReadOnlyList<(decimal Weight, Spot Spot)> There(
            Line line,
            Spots of,
            decimal x,
            decimal sign
        ) => (x == 0 || x == of.Width) && line.IsRead(x) ? [(sign, line.Nearest(x))] : line.At(x, sign);
    }
}
