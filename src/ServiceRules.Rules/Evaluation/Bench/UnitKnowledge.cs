using System.Collections.Immutable;
using ServiceRules.Domain.Records;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Bench;

/// <summary>What the bench log of one unit proves of each quantity, as found and as left.</summary>
internal static class UnitKnowledge
{
    public static ImmutableArray<QuantityKnown> Of(
        UnitWork work,
        ImmutableArray<LoggedReading> readings,
        LimitSheet sheet,
        ServiceRecord record,
        JobDays days,
        ImmutableArray<StepsTried> steps
    )
    {
        var places = new PlaceEvidence(work.Entries, sheet, days, record.Temperature, steps);
        return
        [
            .. readings
                .GroupBy(reading => reading.Quantity)
                .OrderBy(group => group.Key)
                .Select(group => new QuantityKnown(
                    group.Key,
                    AtPlaces(
                        group.Where(reading => reading.IsFound).Select(reading => reading.AsTaken()),
                        new PlaceEvidence([], sheet, days, record.Temperature, [])
                    ),
                    GapBesideContact.Told(AtPlaces(group, places), [.. group])
                )),
        ];
    }

    private static ImmutableArray<PlaceKnown> AtPlaces(
        IEnumerable<LoggedReading> readings,
        PlaceEvidence evidence
    ) =>
        [
            .. readings
                .GroupBy(reading => reading.Place)
                .OrderBy(place => place.Key)
                .Select(place => evidence.Known(place.Key, [.. place])),
        ];
}
