using ServiceRules.Domain.Records;
using ServiceRules.Rules.Model;

namespace ServiceRules.Oracle;

/// <summary>Checks of what stands in the bench log and in which order.</summary>
internal static class LogKinds
{
    public static Possible Present(Facts facts, UnitWork unit, Check.Presence check)
    {
        var readings = unit
            .Entries.Select((Entry, Index) => (Reading: Entry as Reading, Index))
            .Where(r => r.Reading?.Quantity == check.Quantity)
            .ToList();
        var sheet = facts.Book.Sheet(unit.Sheet)!;
        var missing = facts.IsOpen ? Possible.Unproven : Possible.NotMet;
        if (
            readings.Any(r => r.Reading!.Observed is Observation.Paper or Observation.MeasuredAngle)
            || readings.Any(r => r.Reading!.Blade is not null)
        )
        {
            return Possible.Judged;
        }

        var replay = new BenchReplay(unit, sheet);
        if (check.Phase == RequiredPhase.Found)
        {
            if (readings.Any(r => !replay.DisturbedBefore(check.Quantity, r.Index)))
            {
                return check.Places == RequiredPlaces.Any
                    ? Possible.Met | Possible.Unproven
                    : Possible.Judged;
            }

            return replay.DisturbedBefore(check.Quantity, unit.Entries.Length) ? Possible.NotMet : missing;
        }

        var spots = new Spots(facts, unit, check.Quantity);
        if (Sights.TouchesBesideAGap(facts, unit, check.Quantity))
        {
            return Possible.Judged;
        }

        if (check.Places == RequiredPlaces.Any)
        {
            if (readings.Count == 0)
            {
                return missing;
            }

            bool sight =
                Sights.Contact(unit, replay, check.Quantity) is { State: SpotState.Known }
                || Sights.Sound(unit, replay, check.Quantity, null, false) is { State: SpotState.Known };
            return sight || spots.All.Any(s => s.State == SpotState.Known && s.IsPlain) ? Possible.Met
                : spots.IsPlain ? Possible.Unproven
                : Possible.Judged;
        }

        if (!spots.NamesStations || !spots.IsPlain)
        {
            return Possible.Judged;
        }

        var sum = Possible.Met;
        foreach (decimal? at in new[] { spots.Left, spots.Right })
        {
            var spot = spots.All.FirstOrDefault(s => s.At == at);
            sum = sum.And(
                spot is null ? missing
                : spot.State == SpotState.Known ? Possible.Met
                : Possible.Unproven
            );
        }

        return sum;
    }

    public static Possible Fresh(Facts facts, UnitWork unit, Check.Freshness check)
    {
        var spots = new Spots(facts, unit, check.Quantity);
        bool others = unit
            .Entries.OfType<Reading>()
            .Any(r =>
                r.Quantity == check.Quantity
                && r.Observed is not (Observation.Measured or Observation.FeelerTest)
            );
        if (!spots.IsPlain || others)
        {
            return Possible.Judged;
        }

        var voided = spots.All.Where(s => s.State == SpotState.Void).ToList();
        return spots.All.Count == 0 ? Possible.Unproven
            : voided.Count == 0
                ? spots.All.All(s => s.State == SpotState.Known) ? Possible.Met
                    : Possible.NeverNotMet
            : voided.Count == spots.All.Count ? Possible.NotMet
            : voided.Any(v => v.At == spots.Left || v.At == spots.Right) ? Possible.NotMet
            : Possible.Judged;
    }

    public static Possible Sound(Facts facts, UnitWork unit, Check.SoundCondition check)
    {
        var replay = new BenchReplay(unit, facts.Book.Sheet(unit.Sheet)!);
        var readings = unit.Entries.OfType<Reading>().Where(r => r.Quantity == check.Quantity).ToList();
        bool papers = readings.Any(r => r.Observed is Observation.Paper);
        bool seen = readings.Any(r => r.Observed is Observation.Seen);
        if (
            (papers && seen)
            || (papers && check.Quantity != MeasuredQuantity.Edge)
            || readings.Any(r => r.Blade is not null)
        )
        {
            return Possible.Judged;
        }

        var sum = Possible.None;
        foreach (var station in readings.Select(r => r.Station).Distinct())
        {
            if (Sights.Sound(unit, replay, check.Quantity, station, papers) is { } last)
            {
                sum = sum.And(
                    last.State != SpotState.Known ? Possible.Unproven
                    : last.Sound ? Possible.Met
                    : Possible.NotMet
                );
            }
        }

        bool gauged = papers && readings.Any(r => Gauges.IsUnfit(facts.Gauge(r), facts));
        return gauged ? Possible.Judged
            : sum == Possible.None ? Possible.Unproven
            : sum;
    }

    public static Possible Ordered(Facts facts, UnitWork unit, Check.OrderOfWork check)
    {
        if (unit.Entries.Any(e => e.At is not null))
        {
            return Possible.Any;
        }

        var turned = unit
            .Entries.OfType<Adjustment>()
            .Select(a => a.Adjuster)
            .Where(check.Order.Contains)
            .ToList();
        if (turned.Count == 0)
        {
            return Possible.Met | Possible.NotApplicable;
        }

        var sum = Possible.Met;
        for (int i = 0; i < turned.Count; i++)
        {
            for (int j = i + 1; j < turned.Count; j++)
            {
                if (check.Order.IndexOf(turned[i]) > check.Order.IndexOf(turned[j]))
                {
                    sum = sum.And(Holds(facts, unit, turned[i]));
                }
            }
        }

        return sum;
    }

    /// <summary>Whether a reading of what an adjuster sets still holds.</summary>
    private static Possible Holds(Facts facts, UnitWork unit, AdjusterKind adjuster)
    {
        var quantity =
            adjuster == AdjusterKind.HeightRange
                ? MeasuredQuantity.HeightOfCut
                : Enum.GetValues<MeasuredQuantity>().First(q => BenchReplay.Fine(q) == adjuster);
        var replay = new BenchReplay(unit, facts.Book.Sheet(unit.Sheet)!);
        var contact = Sights.Contact(unit, replay, quantity);
        var sound = Sights.Sound(unit, replay, quantity, null, false);
        var spots = new Spots(facts, unit, quantity);
        if (!spots.IsPlain || Sights.TouchesBesideAGap(facts, unit, quantity))
        {
            return Possible.Judged;
        }

        bool anyKnown = spots.All.Any(s => s.State == SpotState.Known);
        if (
            contact is { State: SpotState.Conflicting }
            || sound is { State: SpotState.Conflicting }
            || spots.All.Any(s => s.State == SpotState.Conflicting)
            || (
                (anyKnown || contact is { State: SpotState.Known })
                && spots.All.Any(s => s.State == SpotState.Void)
            )
        )
        {
            return Possible.Judged;
        }

        return anyKnown || contact is { State: SpotState.Known } || sound is { State: SpotState.Known }
            ? Possible.Met
            : Possible.NotMet;
    }
}
