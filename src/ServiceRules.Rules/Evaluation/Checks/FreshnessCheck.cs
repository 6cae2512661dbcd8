using System.Collections.Immutable;
using ServiceRules.Domain.Remedies;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>Nothing that disturbs the quantity was turned after its last reading, at every place that needs one.</summary>
internal static class FreshnessCheck
{
    public static CheckOutcome Evaluate(Check.Freshness check, Rule rule, JobFrame frame, UnitFrame? unit)
    {
        if (unit is null)
        {
            return Subjects.EachUnit(rule, frame);
        }

        var subject = Wording.Sentence(Wording.Of(check.Quantity));
        var left = unit.Of(check.Quantity)?.Left ?? [];
        if (left.IsEmpty && !TouchedInJob.Is(check.Quantity, unit))
        {
            // Where the bedknife is fixed, setting the clearance leaves the height where it was.
            return Told.NotApplicable($"{subject}: nothing that moves it was turned in this job");
        }

        if (left.IsEmpty)
        {
            return Told.Unproven(
                FindingReason.NotMeasured,
                $"{subject}: not read in this job",
                remedy: new Remedy.ReadAgain(check.Quantity, [], "not measured yet")
            );
        }

        var needed = Needed(left, unit, check);
        var stale = needed.Where(place => place.State == KnownState.Stale).ToList();
        if (stale.Count > 0)
        {
            var places = stale.ConvertAll(place => UnitPlaces.Name(place.Station, place.Blade));
            return Told.NotMet(
                FindingReason.Stale,
                $"{subject}: something that moves it was turned after the reading{At(places)}: check again",
                [.. stale.SelectMany(place => place.Evidence)],
                new Remedy.ReadAgain(
                    check.Quantity,
                    [.. places],
                    "something that moves it was turned after the reading"
                )
            );
        }

        return Contradicted(left, check, subject) ?? Holds(needed, subject);
    }

    /// <summary>Readings that contradict one another hold nothing, whatever was turned or not.</summary>
    private static CheckOutcome? Contradicted(
        ImmutableArray<PlaceKnown> left,
        Check.Freshness check,
        string subject
    )
    {
        var conflicting = left.Where(place => place.State == KnownState.Conflicting).ToList();
        if (conflicting.Count == 0)
        {
            return null;
        }

        var places = conflicting.ConvertAll(place => UnitPlaces.Name(place.Station, place.Blade));
        return Told.Unproven(
            FindingReason.Conflicting,
            $"{subject}: readings{At(places)} contradict one another{(conflicting.Exists(place => place.IsUnturned) ? ", and nothing was turned between" : ": repeat them")}",
            [.. conflicting.SelectMany(place => place.Evidence)],
            new Remedy.ReadAgain(check.Quantity, [.. places], "the readings contradict one another")
        );
    }

    private static CheckOutcome Holds(ImmutableArray<PlaceKnown> needed, string subject)
    {
        var carried = needed.Any(place => place.State == KnownState.Carried);
        return Told.Met(
            carried
                ? $"{subject}: what was turned after the reading moves it by little, and that much more doubt is carried"
                : $"{subject}: nothing that moves it was turned after the reading",
            [.. needed.SelectMany(place => place.Evidence)]
        );
    }

    /// <summary>The gauging stations of the sheet where they were read at all; else every place.</summary>
    private static ImmutableArray<PlaceKnown> Needed(
        ImmutableArray<PlaceKnown> left,
        UnitFrame unit,
        Check.Freshness check
    )
    {
        var stations = UnitPlaces.GaugingStations(unit, check.Quantity);
        var gauging = left.Where(place => place.Station is { } at && stations.Contains(at))
            .ToImmutableArray();
        var candidates = gauging.IsEmpty ? left : gauging;
        // Of readings that name blades and readings that do not, at one station, the fresher ones stand for it.
        return
        [
            .. candidates
                .GroupBy(place => place.Station)
                .SelectMany(group =>
                    group.Any(place => place.State != KnownState.Stale)
                        ? group.Where(place => place.State != KnownState.Stale)
                        : group
                ),
        ];
    }

    private static string At(List<string> places) =>
        places is ["across"] ? string.Empty : $" at {Wording.Listed(places)}";
}
