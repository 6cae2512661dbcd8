using System.Collections.Immutable;
using System.Globalization;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Bench;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>
/// What is known of one quantity of one unit, as left, where a check has to look: the places that can be used, and
/// what stands in the way where one that is needed cannot.
/// </summary>
internal sealed class UnitPlaces
{
    // Contradictions at more places than a handful are no evidence of anything.
    private const int MostChoices = 64;

    private readonly UnitFrame unit;
    private readonly MeasuredQuantity quantity;
    private readonly ImmutableArray<PlaceKnown> left;
    private readonly bool isChosen;

    private UnitPlaces(UnitFrame unit, MeasuredQuantity quantity)
    {
        this.unit = unit;
        this.quantity = quantity;
        left = unit.Of(quantity)?.Left ?? [];
        Usable = [.. left.Where(place => place is { Knowledge: not null, State: not KnownState.Stale })];
        Contested = [.. left.Where(place => !place.Contested.IsEmpty)];
        Obstacles = [.. FindObstacles()];
    }

    private UnitPlaces(UnitPlaces of, ImmutableArray<PlaceKnown> believed)
    {
        (unit, quantity, left, isChosen) = (of.unit, of.quantity, of.left, true);
        Usable = believed;
        Contested = [];
        Obstacles = of.Obstacles;
    }

    /// <summary>
    /// Places whose length is known, from the left; where that conflicts with the steps before it, it stands in the way as
    /// well, and only a breach shows.
    /// </summary>
    public ImmutableArray<PlaceKnown> Usable { get; }

    /// <summary>Places where readings contradict one another, with what may be believed of them.</summary>
    public ImmutableArray<PlaceKnown> Contested { get; }

    /// <summary>
    /// The same places under every choice of what may be believed of those that are contested; none where nothing is
    /// contested, or where the choices are too many.
    /// </summary>
    public ImmutableArray<UnitPlaces> Believed()
    {
        var contested = left.Where(place => !place.Contested.IsEmpty).ToList();
        if (
            contested.Count == 0
            || contested.Aggregate(
                1,
                (choices, place) => Math.Min(MostChoices, choices) * place.Contested.Length
            ) > MostChoices
        )
        {
            return [];
        }

        IEnumerable<ImmutableArray<PlaceKnown>> choices =
        [
            [],
        ];
        foreach (var place in left)
        {
            choices = place.Contested.IsEmpty
                ? choices.Select(chosen => Usable.Contains(place) ? chosen.Add(place) : chosen)
                : choices.SelectMany(
                    _ => place.Contested,
                    (chosen, believed) => chosen.Add(place with { Knowledge = believed })
                );
        }

        return [.. choices.Select(chosen => new UnitPlaces(this, chosen))];
    }

    /// <summary>What keeps the quantity from being known everywhere it has to be, gravest first; empty: nothing.</summary>
    public ImmutableArray<Obstacle> Obstacles { get; }

    /// <summary>
    /// What has to be read again before anything is turned, where a length was read with a gauge of which nothing is known: it proves
    /// nothing, and with it no line tells how far. None where there is no such reading.
    /// </summary>
    public Remedy.ReadAgain? ProvesNothing() =>
        Usable
            .Where(place => place is { Knowledge: MeasuredValue, Doubt: FindingReason.UncertaintyUnknown })
            .Select(place => Said(place.Station, place.Blade))
            .ToImmutableArray()
            is { IsEmpty: false } unknown
            ? new(
                quantity,
                unknown,
                "nothing is known of the gauge that it was read with, so that it does not tell how far to turn: use one that is calibrated or zero-checked"
            )
            : null;

    /// <summary>The width of the unit.</summary>
    public Length Width => StationPlaces.Width(unit.Sheet);

    public static UnitPlaces Of(UnitFrame unit, MeasuredQuantity quantity) => new(unit, quantity);

    /// <summary>The left and right gauging stations of the sheet; empty when it names none.</summary>
    public static ImmutableArray<Length> GaugingStations(UnitFrame unit, MeasuredQuantity quantity) =>
        (StationPlaces.Left(quantity, unit.Sheet), StationPlaces.Right(quantity, unit.Sheet)) switch
        {
            ({ } left, { } right) => [left, right],
            ({ } only, null) => [only],
            (null, { } only) => [only],
            _ => [],
        };

    /// <summary>
    /// The lines through what is known that reach both ends, one for readings that name no blade and one for each blade
    /// read at two stations or more.
    /// </summary>
    public IEnumerable<KnownLine> Lines() => Lines(place => place);

    /// <summary>The same, each place first told as something narrower that is known of it.</summary>
    public IEnumerable<KnownLine> Lines(Func<PlaceKnown, PlaceKnown> told) =>
        LinesAsTold(told).Where(line => line.ReachesBothEnds);

    /// <summary>
    /// The lines, however far they reach. Where one of the places contradicts itself there is none but under a choice of
    /// what is believed of it: a line that leaves it out would tell what no reading tells.
    /// </summary>
    public IEnumerable<KnownLine> AllLines() => LinesAsTold(place => place);

    private IEnumerable<KnownLine> LinesAsTold(Func<PlaceKnown, PlaceKnown> told) =>
        Usable
            .Where(place => place.Station is not null)
            .Select(told)
            .GroupBy(place => place.Blade)
            .Where(group => !LeavesOut(group.Key))
            .Select(group => KnownLine.Through([.. group], Width))
            .OfType<KnownLine>();

    /// <summary>Somewhere readings contradict one another, so that what is left does not tell how far to turn.</summary>
    public bool IsContested => left.Any(IsLeftOut);

    private bool LeavesOut(int? blade) =>
        left.Any(place => place.Blade == blade && place.Station is not null && IsLeftOut(place));

    private bool IsLeftOut(PlaceKnown place) =>
        place is { State: KnownState.Conflicting, Knowledge: null, IsGauged: true }
        && (!isChosen || place.Contested.IsEmpty);

    /// <summary>What stands in the way of a line over the width: the same, or that there are no two stations.</summary>
    public ImmutableArray<Obstacle> ObstaclesToALine(IReadOnlyCollection<KnownLine> lines) =>
        Obstacles.IsEmpty && lines.Count == 0
            ?
            [
                new(
                    FindingReason.TooFewStations,
                    null,
                    "two stations",
                    [.. Usable.SelectMany(place => place.Evidence)]
                ),
            ]
            : Obstacles;

    /// <summary>A place as comparisons name it: <c>51 mm</c>, with its blade where one was named.</summary>
    public static string Name(Length? station, int? blade)
    {
        var at = station is { } distance
            ? Length.FromMillimetres(Math.Round(distance.Millimetres, 1)).ToString()
            : "across";
        return blade is { } number
            ? string.Create(CultureInfo.InvariantCulture, $"{at}, blade {number}")
            : at;
    }

    /// <summary>A place as people say it: left and right for the gauging stations.</summary>
    public string Said(Length? station, int? blade)
    {
        var stations = GaugingStations(unit, quantity);
        var side =
            station is null ? null
            : stations.Length == 2 && station == stations[0] ? "left"
            : stations.Length == 2 && station == stations[1] ? "right"
            : (station.Value - (StationPlaces.Width(unit.Sheet) * 0.5m)).Abs <= StationPlaces.Near ? "middle"
            : null;
        return side is null ? Name(station, blade) : $"{side} ({Name(station, blade)})";
    }

    private IEnumerable<Obstacle> FindObstacles()
    {
        var stations = GaugingStations(unit, quantity);
        if (stations.IsEmpty)
        {
            return Usable.IsEmpty
                ? [ObstacleAmong(left, null)]
                : OpenPlaces(stations, []).OrderBy(obstacle => obstacle.Gravity);
        }

        var uncovered = stations.Where(station => !IsCovered(station)).ToImmutableArray();
        return uncovered
            .Select(station => ObstacleAmong([.. left.Where(place => place.Station == station)], station))
            .Concat(OpenPlaces(stations, uncovered))
            .OrderBy(obstacle => obstacle.Gravity);
    }

    /// <summary>Places that nobody had to read, but that were, and where what was read no longer stands.</summary>
    private IEnumerable<Obstacle> OpenPlaces(
        ImmutableArray<Length> stations,
        ImmutableArray<Length> uncovered
    ) =>
        left.Where(place => !(place.Station is { } at && uncovered.Contains(at)))
            .Where(place =>
                place.State == KnownState.Conflicting
                || (place is { State: KnownState.Stale, IsGauged: true } && !IsReplaced(place, stations))
            )
            .Select(place => new Obstacle(
                place.State == KnownState.Conflicting ? FindingReason.Conflicting : FindingReason.Stale,
                place.Station,
                Said(place.Station, place.Blade),
                place.Evidence
            )
            {
                Once = TriedOnce([place]),
                IsUnturned = place.IsUnturned,
                IsGapBesideContact = place.GapContradiction is not null,
            });

    /// <summary>Of feelers that contradict one another some were tried again and some were not: those that were not.</summary>
    private static ImmutableArray<string> TriedOnce(ImmutableArray<PlaceKnown> places)
    {
        var feelers = places
            .Where(place => place.State == KnownState.Conflicting && !place.IsUnturned)
            .SelectMany(place =>
                place.Feelers.GroupBy(tried => tried.Thickness).Select(tried => (place, tried))
            )
            .ToLookup(each =>
                each.tried.TakeLast(2).ToList() is [var one, var two] && one.Passes == two.Passes
            );
        return feelers[true].Any()
            ?
            [
                .. feelers[false]
                    .Select(each => each.tried.First().Named(each.place.System))
                    .Distinct(StringComparer.Ordinal),
            ]
            : [];
    }

    /// <summary>
    /// Read again at the same place. The gauging stations stand for the whole width where the sheet names them; where it
    /// names none, a reading of the whole stands for each of its places.
    /// </summary>
    private bool IsReplaced(PlaceKnown place, ImmutableArray<Length> stations) =>
        IsCovered(place.Station)
        || Usable.Any(other => other.Station == place.Station && other.Blade == place.Blade)
        || (stations.IsEmpty ? IsCovered(null) : place.Station is null);

    /// <summary>
    /// A reading that names no blade speaks for all; readings that name blades cover a station only together.
    /// </summary>
    private bool IsCovered(Length? station)
    {
        var blades = Usable.Where(place => place.Station == station).Select(place => place.Blade).ToList();
        return blades.Contains(null)
            || Enumerable.Range(1, unit.Sheet.Blades).All(blade => blades.Contains(blade));
    }

    private Obstacle ObstacleAmong(ImmutableArray<PlaceKnown> places, Length? station)
    {
        var reason =
            places.Any(place => place.State == KnownState.Conflicting) ? FindingReason.Conflicting
            : places.Any(place => place.State == KnownState.Stale) ? FindingReason.Stale
            : Usable.IsEmpty ? FindingReason.NotMeasured
            : FindingReason.TooFewStations;
        return new(reason, station, Said(station, null), [.. places.SelectMany(place => place.Evidence)])
        {
            Once = TriedOnce(places),
            IsUnturned = places.Any(place => place.IsUnturned),
            IsGapBesideContact = places.Any(place => place.GapContradiction is not null),
            OnSomeBlades = places.Any(place => place.Blade is not null && place.Knowledge is not null),
        };
    }
}
