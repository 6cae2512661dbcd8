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
        var before = Told(unit, index, "/before", grind!.Before!);
        var after = Told(unit, index, "/after", grind.After!);
        // Half of what the diameters may be off, as half of their difference stands in the gap.
        var worn =
            (
                DoubtOf(unit, MeasuredQuantity.ReelDiameter, before, grind.Before!)
                + DoubtOf(unit, MeasuredQuantity.ReelDiameter, after, grind.After!)
            ) * 0.5m;
        foreach (var then in Gaps(unit, 0, index).DistinctBy(gap => gap.Station))
        {
            var expected = ShieldGapDrift.Expected(then.Value, before, after);
            var lead =
                $"the shield was not touched and the reel lost {Wording.Of(before - after, then.System)}: "
                + $"a gap of {Wording.Of(then.Value, then.System)} should now be {Wording.Of(expected, then.System)}";
            var now = Gaps(unit, index, entries.Length).LastOrDefault(gap => gap.Station == then.Station);
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

    private static Length Told(UnitFrame unit, int entry, string member, PrintedLength written) =>
        unit.LengthsTold.GetValueOrDefault(Pointers.Entry(unit.Index, entry) + member, written.Value);

    private static IEnumerable<Gap> Gaps(UnitFrame unit, int from, int until)
    {
        var entries = unit.Work.Entries;
        var places = PlacesRead.Of(entries, unit.Sheet);
        return Enumerable
            .Range(from, until - from)
            .Select(index =>
                entries[index]
                    is Reading
                    {
                        Quantity: MeasuredQuantity.ShieldGap,
                        Withdrawn: null,
                        Observed: Observation.Measured measured,
                    } reading
                && Told(unit, index, "", measured.Value) is var told
                    ? new Gap(
                        places.Of(reading),
                        told,
                        DoubtOf(unit, MeasuredQuantity.ShieldGap, told, measured.Value),
                        measured.Value.System
                    )
                    : null
            )
            .OfType<Gap>();
    }

    /// <summary>U of what was read, where its gauge tells it; else the digits that were written down.</summary>
    private static Length DoubtOf(UnitFrame unit, MeasuredQuantity quantity, Length told, PrintedLength read)
    {
        var known = unit.Of(quantity);
        return (known?.Found ?? [])
                .Concat(known?.Left ?? [])
                .Select(place => place.Knowledge)
                .OfType<MeasuredValue>()
                .FirstOrDefault(measured => measured.Value == told)
                ?.Expanded.Value
            ?? read.RoundingHalfWidth;
    }

    private sealed record Gap(Length? Station, Length Value, Length Doubt, UnitSystem System);
}
