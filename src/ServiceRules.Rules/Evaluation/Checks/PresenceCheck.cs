using System.Collections.Immutable;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Remedies;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>
/// A reading of the quantity is there. While a job is open one that can still be taken is only not there yet; an
/// as-found reading that was not taken before the unit was touched is gone.
/// </summary>
internal static class PresenceCheck
{
    public static CheckOutcome Evaluate(Check.Presence check, Rule rule, JobFrame frame, UnitFrame? unit)
    {
        if (unit is null)
        {
            return Subjects.EachUnit(rule, frame);
        }

        var known = unit.Of(check.Quantity);
        var places = check.Phase is RequiredPhase.Found ? known?.Found ?? [] : known?.Left ?? [];
        var stations =
            check.Places is RequiredPlaces.BothStations
                ? UnitPlaces.GaugingStations(unit, check.Quantity)
                : [];
        var phase = check.Phase is RequiredPhase.Found ? "as found" : "as left";
        var subject = $"{Wording.Sentence(Wording.Of(check.Quantity))}, {phase}";
        var there = places.Where(place => place.State is KnownState.Fresh or KnownState.Carried).ToList();
        var missing = stations.Where(station => !there.Exists(place => place.Station == station)).ToList();
        var unread = missing.FindAll(station => !places.Any(place => place.Station == station));
        if (there.Count > 0 && missing.Count == 0)
        {
            return Told.Met($"{subject}: read", [.. there.SelectMany(place => place.Evidence)]);
        }

        return Missing(check, frame, unit, places, unread.Count > 0 ? unread : missing, subject);
    }

    private static CheckOutcome Missing(
        Check.Presence check,
        JobFrame frame,
        UnitFrame unit,
        ImmutableArray<PlaceKnown> places,
        List<Length> missing,
        string subject
    )
    {
        var isRead =
            !places.IsEmpty && missing.TrueForAll(station => places.Any(place => place.Station == station));
        var at = missing.ConvertAll(station => UnitPlaces.Name(station, null));
        var where = at.Count == 0 ? string.Empty : $" at {Wording.Listed(at)}";
        ImmutableArray<string> evidence = [.. places.SelectMany(place => place.Evidence)];
        Remedy.ReadAgain Again(string why) => new(check.Quantity, [.. at], why);
        if (isRead && places.Any(place => place.State == KnownState.Conflicting))
        {
            return Told.Unproven(
                FindingReason.Conflicting,
                $"{subject}: the readings contradict one another{(places.Any(place => place.IsUnturned) ? ", and nothing was turned between" : ": repeat them")}",
                evidence,
                Again("the readings contradict one another")
            );
        }

        if (isRead && places.Any(place => place.State == KnownState.Stale))
        {
            return Told.Unproven(
                FindingReason.Stale,
                $"{subject}: something that moves it was turned after the reading{where}: check again",
                evidence,
                Again("something that moves it was turned after the reading")
            );
        }

        var reason = places.IsEmpty ? FindingReason.NotMeasured : FindingReason.TooFewStations;
        if (check.Phase is RequiredPhase.Found && TouchedInJob.Is(check.Quantity, unit))
        {
            return Told.NotMet(
                reason,
                $"{subject}: not read{where} before the unit was touched, and that cannot be made good",
                evidence
            );
        }

        return frame.State is RecordState.Open
            ? Told.Unproven(
                FindingReason.InProgress,
                $"{subject}: not read yet{where}",
                evidence,
                Again("a reading is missing")
            )
            : Told.NotMet(reason, $"{subject}: not read{where}", evidence, Again("a reading is missing"));
    }
}
