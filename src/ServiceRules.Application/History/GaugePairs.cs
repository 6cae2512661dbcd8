using System.Collections.Immutable;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation;

namespace ServiceRules.Application.History;

/// <summary>Places read by two gauges with nothing turned in between: in one job, or left at one and found at the next.</summary>
internal static class GaugePairs
{
    // Over a few days a height settles by less than a gauge tells. Common practice, no source.
    private const int DaysBetween = 3;

    private static readonly ImmutableArray<MeasuredQuantity> Settled =
    [
        MeasuredQuantity.HeightOfCut,
        MeasuredQuantity.ReelDiameter,
        MeasuredQuantity.BedknifeLip,
        MeasuredQuantity.LandWidth,
    ];

    /// <summary>Pairs of readings in one bench log.</summary>
    public static IEnumerable<(Reading One, Reading Other)> Within(ImmutableArray<BenchEntry> entries)
    {
        for (var first = 0; first < entries.Length; first++)
        {
            if (
                entries[first]
                is not Reading { Observed: Observation.Measured, Instrument: { } gauge, Withdrawn: null } one
            )
            {
                continue;
            }

            for (var next = first + 1; next < entries.Length && entries[next] is Reading other; next++)
            {
                if (
                    other is { Observed: Observation.Measured, Withdrawn: null }
                    && other.Instrument is { } another
                    && another != gauge
                    && other.Quantity == one.Quantity
                    && other.Station == one.Station
                    && other.Blade == one.Blade
                )
                {
                    yield return (one, other);
                }
            }
        }
    }

    /// <summary>Pairs in one job, each reading with the uncertainty that it would have alone.</summary>
    public static IEnumerable<TwoGauges> Within(UnitFrame unit, JobFrame frame)
    {
        foreach (var (one, other) in Within(unit.Work.Entries))
        {
            if (Alone(one, unit, frame) is { } first && Alone(other, unit, frame) is { } second)
            {
                yield return TwoGauges.Of(
                    unit.Work.Id,
                    one.Quantity,
                    frame.Record.Date,
                    ((Observation.Measured)one.Observed).Value.System,
                    (one.Instrument!.Value, first),
                    (other.Instrument!.Value, second)
                );
            }
        }
    }

    /// <summary>Pairs of what was left at one job and found within days at the next of the same unit.</summary>
    /// <param name="visits">The visits to one unit in order.</param>
    public static IEnumerable<TwoGauges> Between(IEnumerable<UnitVisit> visits)
    {
        UnitVisit? before = null;
        foreach (var visit in visits)
        {
            if (before is not null && visit.Day.DayNumber - before.Day.DayNumber <= DaysBetween)
            {
                foreach (var pair in Between(before, visit))
                {
                    yield return pair;
                }
            }

            before = visit;
        }
    }

    private static IEnumerable<TwoGauges> Between(UnitVisit before, UnitVisit after) =>
        from left in before.Places
        where left is { AsLeft: true, Gauge: not null } && Settled.Contains(left.Quantity)
        from found in after.Places
        where
            found is { AsFound: true, Gauge: not null }
            && found.Quantity == left.Quantity
            && found.Station == left.Station
            && found.Gauge != left.Gauge
        select TwoGauges.Of(
            after.Unit,
            found.Quantity,
            after.Day,
            found.System,
            (left.Gauge!.Value, left.Value),
            (found.Gauge!.Value, found.Value)
        );

    private static MeasuredValue? Alone(Reading reading, UnitFrame unit, JobFrame frame)
    {
        var record = frame.Record with { Units = [unit.Work with { Entries = [reading] }] };
        var known = FrameBuilder.Build(record, frame.Context, frame.Book).Units[0].Of(reading.Quantity);
        return known?.Left is [{ Doubt: FindingReason.None, Knowledge: MeasuredValue value }] ? value : null;
    }
}
