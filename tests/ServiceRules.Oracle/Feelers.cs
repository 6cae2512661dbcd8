using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;

namespace ServiceRules.Oracle;

/// <summary>What go/no-go tries at one place tell of the gap there.</summary>
internal static class Feelers
{
    public static Spot Told(
        Facts facts,
        UnitWork unit,
        MeasuredQuantity quantity,
        BenchReplay replay,
        List<(int Index, Reading Reading)> tries,
        decimal? at
    )
    {
        var sheet = facts.Book.Sheet(unit.Sheet)!;
        var adjuster = BenchReplay.Fine(quantity);
        bool plain = true;
        List<Bound> bounds = [];
        foreach (var (index, reading) in tries)
        {
            var test = (Observation.FeelerTest)reading.Observed;
            var fate = replay.After(quantity, index);
            var turns = Turns(unit, adjuster, index);
            bool known = turns.All(t => t.Amount is AdjustmentAmount.Steps && t.Direction is not null);
            if (fate.Disturbed || (turns.Count > 0 && (!known || quantity != MeasuredQuantity.Clearance)))
            {
                continue;
            }

            decimal moved = turns.Sum(t => Moved(t, sheet.Of(adjuster!.Value)!, at ?? 0));
            decimal off = turns
                .GroupBy(t => t.Side)
                .Sum(side => Math.Abs(side.Sum(t => Moved(t, sheet.Of(adjuster!.Value)!, at ?? 0))));
            if (off > 0)
            {
                var step = sheet.Of(adjuster!.Value)!.Step!;
                off *= HalfDigit(step) / step.Governing.Value.Millimetres;
                // Lengths read before and after a turn tell another step than the sheet's.
                plain &=
                    unit.Entries.OfType<Reading>()
                        .Count(r => r.Quantity == quantity && r.Observed is Observation.Measured) < 2;
            }

            decimal carried = fate.Carried.Sum();
            plain &= carried == 0;
            var gauge = facts.Gauge(reading);
            bool fit = !Gauges.IsUnfit(reading, facts);
            decimal thick = test.Feelers.Sum(f => f.Value.Millimetres);
            // No set is made truer than 0.002 mm, whatever it states.
            decimal? e = gauge?.Tolerance is { } stated
                ? Math.Max(stated.Value.Millimetres, 0.002m) * test.Feelers.Length
                : null;
            plain &= test.Feelers.All(f => f.System == test.Feelers[0].System);
            bounds.Add(
                new(
                    thick,
                    test.Passes,
                    e ?? 0,
                    moved - off,
                    moved + off,
                    turns.Count,
                    fit,
                    e is not null,
                    test.Feelers[0].System
                )
            );
        }

        var current = bounds.Where(b => b.Turns == 0).ToList();
        if (current.Count == 0)
        {
            return new()
            {
                At = at,
                State = SpotState.Void,
                IsPlain = plain,
            };
        }

        var counting = bounds.Any(b => b.Fit) ? bounds.Where(b => b.Fit).ToList() : bounds;
        var told = Sum(counting, at, plain && counting.Any(b => b.Turns == 0));
        return told.State == SpotState.Known && told.IsPlain || counting.Count < bounds.Count
            ? told
            : SinceTheTurn(counting, at, plain) ?? told;
    }

    /// <summary>
    /// Where the tries before a turn, moved with it, leave no gap that the tries since allow: the tries since count alone,
    /// fully when each was repeated, and for a breach only when none was.
    /// </summary>
    private static Spot? SinceTheTurn(List<Bound> bounds, decimal? at, bool plain)
    {
        var since = bounds.Where(b => b.Turns == 0).ToList();
        var before = bounds.Where(b => b.Turns > 0).ToList();
        if (before.Count == 0 || Contradict(since) || TwoWays(before) || !Empty(bounds))
        {
            return null;
        }

        var alone = Sum(since, at, plain);
        int most = since.GroupBy(b => b.Thick).Max(g => g.Count());
        int fewest = since.GroupBy(b => b.Thick).Min(g => g.Count());
        bool beforeIsOnePiece = before.GroupBy(b => b.Turns).All(g => !Empty([.. g]));
        return fewest > 1 ? alone with { IsPlain = alone.IsPlain && beforeIsOnePiece }
            : most > 1 || !beforeIsOnePiece ? null
            : alone with { State = SpotState.Conflicting, ShowsBreach = true, IsFit = false };
    }

    private static bool Contradict(List<Bound> bounds) => TwoWays(bounds) || Empty(bounds);

    private static bool TwoWays(List<Bound> bounds) =>
        bounds.Any(a => bounds.Any(b => a.Turns == b.Turns && a.Thick == b.Thick && a.Passes != b.Passes));

    private static bool Empty(List<Bound> bounds)
    {
        var low = bounds.Where(b => b.Passes).Select(b => b.Thick - b.E + b.MovedLeast).ToList();
        var high = bounds.Where(b => !b.Passes).Select(b => b.Thick + b.E + b.MovedMost).ToList();
        return low.Count > 0 && high.Count > 0 && low.Max() >= high.Min();
    }

    private static Spot Sum(List<Bound> bounds, decimal? at, bool plain)
    {
        decimal? low = null;
        decimal? high = null;
        foreach (var bound in bounds)
        {
            decimal edge = bound.Passes
                ? bound.Thick - bound.E + bound.MovedLeast
                : bound.Thick + bound.E + bound.MovedMost;
            low = bound.Passes && (low is null || edge > low) ? edge : low;
            high = !bound.Passes && (high is null || edge < high) ? edge : high;
        }

        var spot = new Spot
        {
            At = at,
            State = SpotState.Known,
            IsInterval = true,
            Low = low,
            High = high,
            Proves = bounds.All(b => b.Proves),
            IsFit = bounds.All(b => b.Fit),
            System = bounds[^1].System,
            IsPlain = plain && bounds.All(b => b.System == bounds[^1].System && b.Proves == bounds[0].Proves),
        };
        bool repeated = bounds.GroupBy(b => (b.Thick, b.Passes)).Any(g => g.Count() > 1);
        return !Contradict(bounds) ? spot
            : repeated || bounds.Count > 2 || bounds.Any(b => b.Turns > 0) ? spot with { IsPlain = false }
            : spot with
            {
                State = SpotState.Conflicting,
                Believed = bounds.All(b => b.Proves) ? [.. bounds.Select(b => Sum([b], at, plain))] : [],
            };
    }

    private static List<Adjustment> Turns(UnitWork unit, AdjusterKind? adjuster, int after) =>
        [.. unit.Entries.Skip(after + 1).OfType<Adjustment>().Where(a => a.Adjuster == adjuster)];

    private static decimal Moved(Adjustment turn, Rules.Model.Adjuster adjuster, decimal at)
    {
        if (turn.Amount is not AdjustmentAmount.Steps steps || adjuster.Step is null)
        {
            return 0;
        }

        decimal a = adjuster.LeftAt?.Value.Millimetres ?? 0;
        decimal b = adjuster.RightAt?.Value.Millimetres ?? 1;
        decimal share =
            turn.Side == Side.Both ? 1
            : turn.Side == Side.Left ? (b - at) / (b - a)
            : (at - a) / (b - a);
        int sign = turn.Direction is AdjustDirection.Close or AdjustDirection.Lower ? -1 : 1;
        return sign * steps.Count * adjuster.Step.Governing.Value.Millimetres * share;
    }

    /// <summary>How far the sheet's step may be from its print: half its last digit, of two prints that agree the finer.</summary>
    private static decimal HalfDigit(DualPrint step) =>
        step is { Alternate: { } other, Agreement: PrintAgreement.Agrees }
            ? Math.Min(step.Governing.RoundingHalfWidth.Millimetres, other.RoundingHalfWidth.Millimetres)
            : step.Governing.RoundingHalfWidth.Millimetres;

    private sealed record Bound(
        decimal Thick,
        bool Passes,
        decimal E,
        decimal MovedLeast,
        decimal MovedMost,
        int Turns,
        bool Fit,
        bool Proves,
        UnitSystem System
    );
}
