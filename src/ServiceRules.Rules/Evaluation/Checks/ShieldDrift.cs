using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Wear;
using ServiceRules.Rules.Evaluation.Bench;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>
/// A shield that nobody touched stands further off a reel that was ground: the gap to expect, and whether the gap that
/// was read afterwards follows it within what the readings of both may be off. A note, never a verdict.
/// </summary>
internal static class ShieldDrift
{
    public static IEnumerable<string> Notices(UnitFrame unit)
    {
        var entries = unit.Work.Entries;
        var at = entries
            .Select((entry, index) => (Grind: entry as Grinding, Index: index))
            .Where(each =>
                each.Grind
                    is {
                        Kind: GrindingKind.ReelSpin or GrindingKind.ReelRelief,
                        Before: not null,
                        After: not null,
                    }
            )
            .ToList();
        // Two grinds in one job leave open which gap was read between them.
        if (at.Count != 1 || entries.OfType<Adjustment>().Any(turn => turn.Adjuster is AdjusterKind.Shield))
        {
            yield break;
        }

        var (grind, index) = at[0];
        // Half of what the diameters may be off, as half of their difference stands in the gap.
        var worn =
            (
                DoubtOf(unit, MeasuredQuantity.ReelDiameter, grind!.Before!)
                + DoubtOf(unit, MeasuredQuantity.ReelDiameter, grind.After!)
            ) * 0.5m;
        foreach (var then in Gaps(unit, entries.Take(index)).DistinctBy(gap => gap.Station))
        {
            var expected = ShieldGapDrift.Expected(then.Value, grind.Before!.Value, grind.After!.Value);
            var lead =
                $"the shield was not touched and the reel lost {Wording.Of(grind.Before.Value - grind.After.Value, then.System)}: "
                + $"a gap of {Wording.Of(then.Value, then.System)} should now be {Wording.Of(expected, then.System)}";
            var now = Gaps(unit, entries.Skip(index)).LastOrDefault(gap => gap.Station == then.Station);
            if (now is null)
            {
                yield return $"{lead} (derived)";
            }
            else if ((now.Value - expected).Abs > then.Doubt + now.Doubt + worn)
            {
                yield return $"{lead} (derived), and {Wording.Of(now.Value, now.System)} was read: "
                    + "copied, set anew without a note, or misread";
            }
        }
    }

    private static IEnumerable<Gap> Gaps(UnitFrame unit, IEnumerable<BenchEntry> entries)
    {
        var places = PlacesRead.Of(unit.Work.Entries, unit.Sheet);
        return entries
            .OfType<Reading>()
            .Where(reading => reading is { Quantity: MeasuredQuantity.ShieldGap, Withdrawn: null })
            .Select(reading =>
                reading.Observed is Observation.Measured measured
                    ? new Gap(
                        places.Of(reading),
                        measured.Value.Value,
                        DoubtOf(unit, MeasuredQuantity.ShieldGap, measured.Value),
                        measured.Value.System
                    )
                    : null
            )
            .OfType<Gap>();
    }

    /// <summary>U of what was read, where its gauge tells it; else the digits that were written down.</summary>
    private static Length DoubtOf(UnitFrame unit, MeasuredQuantity quantity, PrintedLength read)
    {
        var known = unit.Of(quantity);
        return (known?.Found ?? [])
                .Concat(known?.Left ?? [])
                .Select(place => place.Knowledge)
                .OfType<MeasuredValue>()
                .FirstOrDefault(measured => measured.Value == read.Value)
                ?.Expanded.Value
            ?? read.RoundingHalfWidth;
    }

    private sealed record Gap(Length? Station, Length Value, Length Doubt, UnitSystem System);
}
