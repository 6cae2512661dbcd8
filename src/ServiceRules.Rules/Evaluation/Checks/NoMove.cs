using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>
/// Why one unit is not told any move of a quantity, whatever rule asks: readings that prove nothing, a target outside the unit's own
/// range, a bow wider than the limits. Every rule on the quantity, and the plan for the machine, keeps to it.
/// </summary>
internal static class NoMove
{
    public const string Bowed =
        "the line is bowed by more than the limits allow, and turning moves only its ends";

    /// <summary>What to do in place of a move; none where a move may be told.</summary>
    public static Remedy? Of(UnitFrame unit, MeasuredQuantity quantity, UnitPlaces places, RuleBook book)
    {
        if (places.ProvesNothing() is { } unknown)
        {
            return unknown;
        }

        var limits = UnitLimits.Of(unit, quantity, book);
        if (limits.Apart is var (range, about))
        {
            var system = places.Usable.IsEmpty ? unit.Sheet.Width.Governing.System : places.Usable[0].System;
            return new Remedy.CannotBeTurnedIn(
                $"what is asked for ({ZoneWords.Of(about.In(system), system)}) lies outside what this kind of unit can be set to ({ZoneWords.Of(range.In(system), system)})",
                "another target in force, or a unit whose own range holds it: no turn keeps both"
            );
        }

        if (places.Lines().FirstOrDefault() is not { } line)
        {
            return null;
        }

        var (below, above) = LineShape.Departures(line);
        if (!limits.LeaveNoRoomFor(below, above))
        {
            return null;
        }

        return LineShape.DoubtOf(line) is FindingReason.None
            ? new Remedy.CannotBeTurnedIn(Bowed, "grind: a bow cannot be adjusted out")
            : new Remedy.ReadAgain(
                quantity,
                [.. line.Places.Select(place => UnitPlaces.Name(place.Station, place.Blade))],
                "bowed by more than the limits allow by what this gauge shows alone, which proves nothing: read again with a fit one before anything is ground"
            );
    }

    /// <summary>
    /// The same of a set of units, whatever order they stand in: what is to be read again goes first, for the rest may look otherwise
    /// then. None where no unit has such a reason.
    /// </summary>
    public static Remedy? OfSet(IEnumerable<UnitFrame> units, MeasuredQuantity quantity, RuleBook book)
    {
        var barred = units
            .OrderBy(unit => unit.Work.Id.Text, StringComparer.Ordinal)
            .Select(unit => (unit.Work.Id, Why: Of(unit, quantity, UnitPlaces.Of(unit, quantity), book)))
            .Where(each => each.Why is not null)
            .ToList();
        var unread = barred.FindAll(each => each.Why is Remedy.ReadAgain);
        return unread.Count > 0
            ? ((Remedy.ReadAgain)unread[0].Why!) with
            {
                Places = [.. unread.Select(each => each.Id.Text)],
            }
            : barred
                .Where(each => each.Why is Remedy.CannotBeTurnedIn)
                .Select(each => Turnless(each.Id.Text, (Remedy.CannotBeTurnedIn)each.Why!))
                .FirstOrDefault();
    }

    private static Remedy.Act Turnless(string unit, Remedy.CannotBeTurnedIn cannot) =>
        new(
            $"{unit} cannot be turned in: {cannot.Binding}; what would help: {cannot.WouldHelp}; then read the units again"
        );
}
