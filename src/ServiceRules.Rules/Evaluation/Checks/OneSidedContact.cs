using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Bench;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>
/// Contact at one side of a unit whose other side is known to be clear: only the side that touches is opened, and a clear
/// side that is too wide already is told and not taken further out.
/// </summary>
internal sealed class OneSidedContact
{
    private readonly UnitPlaces said;
    private readonly Side touching;
    private readonly PlaceKnown clear;
    private readonly Length? upper;

    private OneSidedContact(UnitPlaces said, Side touching, PlaceKnown clear, Length? upper)
    {
        this.said = said;
        this.touching = touching;
        this.clear = clear;
        this.upper = upper;
    }

    /// <summary>What the clear side adds to what is said: that it is proven too wide; else nothing.</summary>
    public string Statement =>
        IsTooWide
            ? $"; {said.Said(clear.Station, clear.Blade)} is clear, and too wide by what was read: {Wording.Of(clear.Knowledge!, clear.System)}, limit {Wording.Of(upper!.Value, clear.System)}"
            : string.Empty;

    /// <summary>What the clear side rests on.</summary>
    public IEnumerable<string> Evidence => clear.Evidence;

    /// <summary>By no count: how deep it touches nobody knows.</summary>
    public Remedy.Act Remedy
    {
        get
        {
            var (side, other) = touching is Side.Left ? ("left", "right") : ("right", "left");
            var then = IsTooWide
                ? $"leave the {other}, which is too wide already: it is closed only after both ends were read again"
                : $"leave the {other}, which is clear, as it is";
            return new(
                $"open only the {side} side, one step at a time, until it just frees there; {then}; then read both ends again and set the gap by feeler"
            );
        }
    }

    private bool IsTooWide =>
        clear.Doubt is FindingReason.None && clear.Knowledge?.AsInterval().Lower?.Value > upper;

    /// <summary>None where contact is over the full width, or nothing tells which side is clear.</summary>
    public static OneSidedContact? Of(UnitFrame unit, MeasuredQuantity quantity)
    {
        var known = (unit.Of(quantity)?.Left ?? [])
            .Where(place => place.State is not KnownState.Stale)
            .ToList();
        var (left, right) = (
            StationPlaces.Left(quantity, unit.Sheet),
            StationPlaces.Right(quantity, unit.Sheet)
        );
        if (
            left is not { } leftAt
            || right is not { } rightAt
            || known.Exists(place =>
                place.Station is null
                && place.ContactBelieved.Any(contact =>
                    contact is not (ContactState.Partial or ContactState.None)
                )
            )
        )
        {
            return null;
        }

        var (atLeft, atRight) = (Clear(known, leftAt), Clear(known, rightAt));
        return (atLeft, atRight) switch
        {
            (null, { } clear) => new(
                UnitPlaces.Of(unit, quantity),
                Side.Left,
                clear,
                Upper(unit, quantity, clear)
            ),
            ({ } clear, null) => new(
                UnitPlaces.Of(unit, quantity),
                Side.Right,
                clear,
                Upper(unit, quantity, clear)
            ),
            _ => null,
        };
    }

    private static PlaceKnown? Clear(List<PlaceKnown> known, Length station)
    {
        // One blade that is clear tells nothing of the others.
        var at = known.Where(place => place.Station == station).ToList();
        return at.Exists(place => place.ContactBelieved.Any(contact => contact is not ContactState.None))
            ? null
            : at.Find(place =>
                place.Blade is null
                && place.Doubt is FindingReason.None
                && place.Knowledge?.AsInterval().Lower?.Value > Length.Zero
            ) ?? at.Find(place => place is { Blade: null, Contact: ContactState.None });
    }

    /// <summary>What is too wide only beyond it: read in both units, beyond both prints.</summary>
    private static Length? Upper(UnitFrame unit, MeasuredQuantity quantity, PlaceKnown clear) =>
        unit.Sheet.Of(quantity)?.Upper is not { } most ? null
        : clear.IsReadInBoth ? Length.Max(most.In(UnitSystem.Metric), most.In(UnitSystem.Inch))
        : most.In(clear.System);
}
