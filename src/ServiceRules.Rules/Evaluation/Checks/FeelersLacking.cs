using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Verdicts;

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
    public static string? ToSettle(IReadOnlyCollection<PlaceKnown> open, CheckOutcome outcome) =>
        Short(
            Told(
                open.Select(place =>
                {
                    var name = UnitPlaces.Name(place.Station, place.Blade);
                    var compared = outcome.Comparisons.FirstOrDefault(each =>
                        each is { Verdict: Verdict.Unproven, IsAtEnd: false } && each.Place == name
                    );
                    return (
                        place,
                        compared is not null && Settling(place, compared) is { } settled
                            ? $"{Lacking(place.Knowledge, null) ?? Closer}: {settled}"
                            : Lacking(place.Knowledge, null)
                    );
                })
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

    /// <summary>
    /// Which feelers decide: one that passes proves t - e and more, one that does not less than t + e, t its thickness and e the
    /// tolerance of the feelers tried there.
    /// </summary>
    private static string? Settling(PlaceKnown place, Comparison compared)
    {
        if (
            place.Knowledge is not LengthInterval known
            || place.Feelers.Min(feeler => feeler.Tolerance) is not { } tolerance
        )
        {
            return null;
        }

        List<string> parts = [];
        if (compared.LowerLimit is { } lower && !(known.Lower?.Value >= lower))
        {
            parts.Add(
                $"{Wording.AtLeast(lower + tolerance, place.System)} or more passing"
                    + (
                        lower > tolerance
                            ? $", or {Wording.AtMost(lower - tolerance, place.System)} or less not passing,"
                            : string.Empty
                    )
                    + " settles the lower limit"
            );
        }

        if (compared.UpperLimit is { } upper && !(known.Upper?.Value <= upper))
        {
            parts.Add(
                (
                    upper > tolerance
                        ? $"{Wording.AtMost(upper - tolerance, place.System)} or less not passing, or "
                        : string.Empty
                )
                    + $"more than {Wording.AtLeast(upper + tolerance, place.System)} passing settles the upper limit"
            );
        }

        return parts.Count == 0 ? null : string.Join(", ", parts);
    }
}
