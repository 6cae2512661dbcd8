using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>
/// What a gap tried with feelers lacks: where all of them passed it is bounded from below alone, where none passed from above.
/// No finer gauge mends that, but the next feeler does.
/// </summary>
internal static class FeelersLacking
{
    public const string Thicker =
        "what was tried passes, which bounds it from below alone; try thicker feelers until one does not pass";

    public const string Thinner =
        "what was tried does not pass, which bounds it from above alone; try thinner feelers until one passes";

    public const string Closer = "try the feelers on both sides of the limit, or a finer gauge";

    // Of a reel read blade by blade nobody reads what each place lacks.
    private const int ToldAtMost = 450;

    /// <summary>None where both sides are bounded, or nothing is; where places lack different feelers, each is told its own.</summary>
    /// <param name="known">The places.</param>
    /// <param name="bound">The value that the quantity cannot pass; it bounds as well as a feeler does.</param>
    public static string? Of(IReadOnlyCollection<PlaceKnown> known, Length? bound) =>
        Short(Told(known.Select(place => (place, Lacking(place.Knowledge, bound)))))
        ?? known.Select(place => Lacking(place.Knowledge, bound)).FirstOrDefault(lacks => lacks is not null);

    /// <summary>
    /// The same of places that feelers leave on both sides of a limit, with the feelers that would settle it; none where no such
    /// place was tried with feelers.
    /// </summary>
    /// <param name="open">The places.</param>
    /// <param name="outcome">What they were compared with.</param>
    /// <param name="places">All places of the quantity.</param>
    public static string? ToSettle(
        IReadOnlyCollection<PlaceKnown> open,
        CheckOutcome outcome,
        UnitPlaces places
    ) =>
        Short(
            Told(
                open.Select(place =>
                    (
                        place,
                        SettlingFeelers.Of(place, outcome, places) is { } settled
                            ? settled == SettlingFeelers.NoneAtTheEnd
                                ? settled
                                : $"{Lacking(place.Knowledge, null) ?? Closer}: {settled}"
                            : Lacking(place.Knowledge, null)
                    )
                )
            )
        ) ?? Of(open, bound: null);

    private static string? Short(string? told) => told?.Length <= ToldAtMost ? told : null;

    private static string? Told(IEnumerable<(PlaceKnown Place, string? Lacks)> places)
    {
        var all = places.ToList();
        var lacking = all.Where(each => each.Lacks is not null)
            .GroupBy(each => each.Lacks!, StringComparer.Ordinal)
            .ToList();
        return lacking.Count == 0 ? null
            : lacking.Count == 1 && lacking[0].Count() == all.Count ? lacking[0].Key
            : string.Join(
                "; ",
                lacking.Select(alike =>
                    $"at {Wording.Listed([.. alike.Select(each => UnitPlaces.Name(each.Place.Station, each.Place.Blade))])} {alike.Key}"
                )
            );
    }

    private static string? Lacking(Knowledge? known, Length? bound) =>
        known switch
        {
            LengthInterval { Upper: null, Lower: not null } => Thicker,
            LengthInterval { Lower: null, Upper: not null } when bound is null => Thinner,
            _ => null,
        };
}
