using ServiceRules.Domain.Records;
using ServiceRules.Rules.Evaluation.Bench;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>
/// What a finding says of tries and looks that contradict one another with nothing turned between, and of readings that were taken
/// back: neither goes by unseen.
/// </summary>
internal static class TriesNotices
{
    public static IEnumerable<string> Of(CheckOutcome outcome, UnitFrame unit, MeasuredQuantity quantity)
    {
        var places = UnitPlaces.Of(unit, quantity);
        return Alike
            .Once(
                from place in unit.Of(quantity)?.Left ?? []
                from told in new[]
                {
                    place.FeelerContradiction,
                    place.ContactContradiction,
                    place.GapContradiction,
                }
                where told is not null && !outcome.Statement.Contains(told.Words, StringComparison.Ordinal)
                select (places.Said(place.Station, place.Blade), told.Words)
            )
            .Concat(Withdrawn(unit, quantity, places));
    }

    private static IEnumerable<string> Withdrawn(UnitFrame unit, MeasuredQuantity quantity, UnitPlaces places)
    {
        var at = PlacesRead.Of(unit.Work.Entries, unit.Sheet);
        return unit
            .Work.Entries.OfType<Reading>()
            .Where(reading => reading.Withdrawn is not null && reading.Quantity == quantity)
            .Select(reading =>
                $"{places.Said(at.Of(reading), reading.Blade)}{ToldThoughMet.TakenBack}{Words(reading.Observed)} ({reading.Withdrawn})"
            );
    }

    /// <summary>What was read, in words.</summary>
    public static string Words(Observation observed) =>
        observed switch
        {
            Observation.Measured measured => measured.Value.ToString(),
            Observation.MeasuredAngle angle => angle.Value.ToString(),
            Observation.FeelerTest test =>
                $"{string.Join(" + ", test.Feelers)} feeler {(test.Passes ? "passes" : "does not pass")}",
            Observation.Contact contact => Wording.Of(contact.State),
            Observation.Paper paper => $"paper {paper.Result.ToString().ToLowerInvariant()}",
            _ => "a condition",
        };
}
