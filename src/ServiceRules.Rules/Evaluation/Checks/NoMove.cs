using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
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
        return limits.LeaveNoRoomFor(below, above)
            ? new Remedy.CannotBeTurnedIn(Bowed, "grind: a bow cannot be adjusted out")
            : null;
    }

    /// <summary>The same of the first unit of a set that has such a reason, with its name; none where no unit has.</summary>
    public static Remedy? OfSet(IEnumerable<UnitFrame> units, MeasuredQuantity quantity, RuleBook book)
    {
        var (barred, remedy) = units
            .Select(unit => (unit, Of(unit, quantity, UnitPlaces.Of(unit, quantity), book)))
            .FirstOrDefault(each => each.Item2 is not null);
        return remedy switch
        {
            Remedy.ReadAgain again => again with { Places = [barred.Work.Id.Text] },
            Remedy.CannotBeTurnedIn cannot => new Remedy.Act(
                $"{barred.Work.Id} cannot be turned in: {cannot.Binding}; what would help: {cannot.WouldHelp}; then read the units again"
            ),
            _ => null,
        };
    }
}
