using System.Collections.Immutable;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Bench;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>
/// A reading that was taken back, by which it would be out, and after which nothing of its quantity was read there: whoever calls it a
/// slip has to show it by reading again, else a breach could be taken back as the last entry.
/// </summary>
internal static class TakenBack
{
    // Slips are few; of more that nobody read again nothing is believed, whatever each of them says.
    private const int MostTried = 16;

    public static CheckOutcome Doubted(
        CheckOutcome outcome,
        Rule rule,
        JobFrame frame,
        UnitFrame? unit,
        Func<Rule, JobFrame, UnitFrame, CheckOutcome> judged
    )
    {
        if (
            unit is null
            || outcome.Verdict is not Verdict.Met
            || rule.Check is Check.Presence or Check.Freshness
        )
        {
            return outcome;
        }

        foreach (var quantity in GaugeNotices.TriedIn(rule.Check).Distinct())
        {
            var open = NotReadAgain(unit, quantity);
            if (
                (
                    open.Count > MostTried
                        ? open
                        : open.FindAll(index => IsOut(index, rule, frame, unit, judged))
                ) is
                { Count: > 0 } taken
            )
            {
                return Told(outcome, unit, quantity, taken);
            }
        }

        return outcome;
    }

    private static CheckOutcome Told(
        CheckOutcome outcome,
        UnitFrame unit,
        MeasuredQuantity quantity,
        List<int> taken
    )
    {
        var places = UnitPlaces.Of(unit, quantity);
        var at = PlacesRead.Of(unit.Work.Entries, unit.Sheet);
        var readings = taken.ConvertAll(index => (Reading)unit.Work.Entries[index]);
        var said = readings.ConvertAll(reading =>
            $"{TriesNotices.Words(reading.Observed)} at {places.Said(at.Of(reading), reading.Blade)}".Replace(
                " at across",
                string.Empty,
                StringComparison.Ordinal
            )
        );
        return outcome with
        {
            Verdict = Verdict.Unproven,
            Reason = FindingReason.Conflicting,
            Statement =
                $"{Wording.Sentence(Wording.Of(quantity))}: taken back, not read again: {Wording.Listed([.. said.Distinct(StringComparer.Ordinal)])}; by that it would be out",
            Evidence = Checks.Told.Sorted([
                .. outcome.Evidence,
                .. taken.Select(index => Pointers.Entry(unit.Index, index)),
            ]),
            Remedy = new Remedy.ReadAgain(
                quantity,
                [
                    .. readings
                        .Select(reading => UnitPlaces.Name(at.Of(reading), reading.Blade))
                        .Distinct(StringComparer.Ordinal),
                ],
                "what was read there last would be out, and it was taken back without being read again"
            ),
        };
    }

    /// <summary>Readings taken back with nothing of their quantity read there since, by their index.</summary>
    private static List<int> NotReadAgain(UnitFrame unit, MeasuredQuantity quantity)
    {
        var entries = unit.Work.Entries;
        var at = PlacesRead.Of(entries, unit.Sheet);
        return
        [
            .. Enumerable
                .Range(0, entries.Length)
                .Where(index =>
                    entries[index] is Reading { Withdrawn: not null } taken
                    && taken.Quantity == quantity
                    && !IsReadAgain(
                        taken,
                        [
                            .. entries
                                .Skip(index + 1)
                                .OfType<Reading>()
                                .Where(later => later.Withdrawn is null && later.Quantity == quantity),
                        ],
                        at,
                        UnitPlaces.GaugingStations(unit, quantity)
                    )
                ),
        ];
    }

    /// <summary>
    /// Read there: at the place, with contact or paper also over the whole width; and of what was noted of the whole width, over it or at
    /// both gauging stations.
    /// </summary>
    private static bool IsReadAgain(
        Reading taken,
        ImmutableArray<Reading> later,
        PlacesRead at,
        ImmutableArray<Length> stations
    )
    {
        bool IsAt(Length? place) =>
            later.Any(reading =>
                at.Of(reading) == place && (reading.Blade is null || reading.Blade == taken.Blade)
            );
        return at.Of(taken) is { } place
            ? IsAt(place)
                || later.Any(reading =>
                    at.Of(reading) is null
                    && IsAlike(reading, taken)
                    && (reading.Blade is null || reading.Blade == taken.Blade)
                )
            : IsAt(null) || (stations.Length > 1 && stations.All(station => IsAt(station)));
    }

    private static bool IsAlike(Reading one, Reading other) =>
        one.Observed is not (Observation.Measured or Observation.FeelerTest)
        && one.Observed.GetType() == other.Observed.GetType();

    /// <summary>Whether it would be out, had it not been taken back and were what it contradicts left out.</summary>
    private static bool IsOut(
        int index,
        Rule rule,
        JobFrame frame,
        UnitFrame unit,
        Func<Rule, JobFrame, UnitFrame, CheckOutcome> judged
    )
    {
        var at = PlacesRead.Of(unit.Work.Entries, unit.Sheet);
        var taken = (Reading)unit.Work.Entries[index];
        bool Contradicts(Reading earlier) =>
            earlier.Quantity == taken.Quantity
            && (
                at.Of(taken) is not { } place
                || at.Of(earlier) is not { } other
                || other == place
                || (earlier.Observed is Observation.Contact && IsAlike(earlier, taken))
            );
        ImmutableArray<BenchEntry> entries =
        [
            .. unit
                .Work.Entries.Take(index)
                .Where(entry => entry is not Reading { Withdrawn: null } earlier || !Contradicts(earlier)),
            taken with
            {
                Withdrawn = null,
            },
            .. unit.Work.Entries.Skip(index + 1),
        ];
        var changed = FrameBuilder.WithEntries(frame, unit.Index, entries);
        return judged(rule, changed, changed.Units[unit.Index]).Verdict is Verdict.NotMet;
    }
}
