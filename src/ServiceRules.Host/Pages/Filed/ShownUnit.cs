using ServiceRules.Domain.Records;
using ServiceRules.Reporting.Reports.Words;
using ServiceRules.Rules.Evaluation.Bench;

namespace ServiceRules.Host.Pages.Filed;

/// <summary>A unit of a record as a page tells it.</summary>
/// <param name="Id">The unit.</param>
/// <param name="About">Where it sits and what it is held to.</param>
/// <param name="Outcome">Whether it may go out; null where it is not told.</param>
/// <param name="Places">What was read and turned, by quantity and station.</param>
/// <param name="Done">What was ground and fitted.</param>
public sealed record ShownUnit(
    string Id,
    string About,
    string? Outcome,
    IReadOnlyList<ShownPlace> Places,
    IReadOnlyList<string> Done
)
{
    internal static ShownUnit Of(UnitWork unit, string? outcome) =>
        new(
            unit.Id.Text,
            Identity(unit),
            outcome,
            ShownPlace.Of(unit),
            [
                .. unit
                    .Entries.Where(entry => entry is Grinding or PartFitted)
                    .Select(entry => BenchWords.Told(entry) + BenchWords.When(entry, byOther: true)),
            ]
        );

    private static string Identity(UnitWork unit)
    {
        string?[] parts =
        [
            unit.Position is { } position ? $"position {position} from the left" : null,
            $"limit sheet {unit.Sheet}",
            unit.Reel is { } reel ? $"reel {reel}" : null,
            unit.Bedknife is { } knife ? $"bedknife {knife}" : null,
            unit.Attachments.IsEmpty
                ? null
                : $"fitted: {string.Join(", ", unit.Attachments.Select(ReportWords.Of))}",
            unit.Tasks.IsEmpty ? null : $"tasks: {string.Join(", ", unit.Tasks.Select(ReportWords.Of))}",
        ];
        return string.Join(", ", parts.OfType<string>());
    }
}

/// <summary>What was read and turned of one quantity at one station.</summary>
/// <param name="Name">Quantity and station.</param>
/// <param name="Found">Readings before anything of it was turned.</param>
/// <param name="Between">What was turned, and what was read between, in order.</param>
/// <param name="Left">Readings after everything of it was turned; empty where nothing was turned.</param>
/// <param name="IsTurned">Whether anything of it was turned.</param>
public sealed record ShownPlace(
    string Name,
    IReadOnlyList<string> Found,
    IReadOnlyList<string> Between,
    IReadOnlyList<string> Left,
    bool IsTurned
)
{
    internal static IReadOnlyList<ShownPlace> Of(UnitWork unit)
    {
        var rows = unit
            .Entries.OfType<Reading>()
            .Select(reading => (reading.Quantity, Side: SideOf(reading.Station), Place: PlaceOf(reading)))
            .Distinct()
            .Select(key => Row(unit, key.Quantity, key.Side, key.Place))
            .ToList();
        var read = unit.Entries.OfType<Reading>().Select(reading => reading.Quantity).ToHashSet();
        // What was turned without being read stands too.
        var bare = unit
            .Entries.OfType<Adjustment>()
            .Select(turned => AdjustedQuantity.SetBy(turned.Adjuster))
            .Distinct()
            .Where(quantity => !read.Contains(quantity))
            .Select(quantity => Row(unit, quantity, null, ""));
        return [.. rows, .. bare];
    }

    private static ShownPlace Row(UnitWork unit, MeasuredQuantity quantity, StationName? side, string place)
    {
        var turns = unit
            .Entries.Select((entry, at) => (entry, at))
            .Where(one => one.entry is Adjustment turned && IsOf(turned, quantity, side))
            .Select(one => one.at)
            .ToList();
        List<string> found = [];
        List<string> between = [];
        List<string> left = [];
        for (var at = 0; at < unit.Entries.Length; at++)
        {
            switch (unit.Entries[at])
            {
                case Reading reading when reading.Quantity == quantity && PlaceOf(reading) == place:
                    var told = Told(reading);
                    var phase =
                        reading.Phase
                        ?? (
                            turns.Count == 0 || at < turns[0] ? ReadingPhase.Found
                            : at > turns[^1] ? ReadingPhase.Left
                            : ReadingPhase.Between
                        );
                    (
                        phase switch
                        {
                            ReadingPhase.Found => found,
                            ReadingPhase.Left => left,
                            _ => between,
                        }
                    ).Add(told);
                    break;
                case Adjustment turned when turns.Contains(at):
                    between.Add(BenchWords.Told(turned) + BenchWords.When(turned, byOther: true));
                    break;
                default:
                    break;
            }
        }

        var name = ReportWords.Of(quantity) + (place.Length == 0 ? "" : $", {place}");
        return new(name, found, between, left, turns.Count > 0);
    }

    private static bool IsOf(Adjustment turned, MeasuredQuantity quantity, StationName? side) =>
        AdjustedQuantity.SetBy(turned.Adjuster) == quantity
        && (turned.Side, side) is not ((Side.Left, StationName.Right) or (Side.Right, StationName.Left));

    private static string Told(Reading reading)
    {
        string?[] parts =
        [
            BenchWords.Observed(reading.Observed),
            reading.Instrument is { } gauge ? $"({gauge.Text})" : null,
            reading.Withdrawn is { } why ? $"(withdrawn: {why})" : null,
        ];
        return string.Join(" ", parts.OfType<string>()) + BenchWords.When(reading, byOther: true);
    }

    private static StationName? SideOf(Station? station) => (station as Station.Named)?.Name;

    private static string PlaceOf(Reading reading)
    {
        string?[] parts =
        [
            reading.Station switch
            {
                Station.AtDistance at => $"at {at.FromLeft}",
                Station.Named { Name: StationName.Left } => "left",
                Station.Named { Name: StationName.Middle } => "middle",
                Station.Named { Name: StationName.Right } => "right",
                _ => null,
            },
            reading.Blade is { } blade ? $"blade {blade}" : null,
        ];
        return string.Join(", ", parts.OfType<string>());
    }
}
