using System.Collections.Immutable;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>
/// Readings that contradict one another hold nothing, and yet show a breach where all that may be believed of them lies
/// beyond one and the same limit: whichever is wrong, the place is out.
/// </summary>
internal static class ContestedBreach
{
    private const string Doubt =
        "readings contradict one another; it is out whichever of them is believed, by how much is not known";

    public const string WhyAgain =
        "out whichever reading is believed, but they contradict one another, so that they do not tell how far to turn";

    // Units of a machine make many pairs; more choices than this are no evidence of anything.
    private const int MostChoices = 256;

    /// <summary>The places that are out whichever reading is believed, each told by the one that is out by least.</summary>
    public static ImmutableArray<PlaceJudgement> Among(
        MeasuredQuantity quantity,
        UnitPlaces places,
        PrintedZone zone,
        RuleDecision decision
    ) =>
        [
            .. places
                .Contested.Select(place =>
                    place
                        .Contested.Select(believed =>
                            PlaceJudgement.Of(
                                new(
                                    quantity,
                                    UnitPlaces.Name(place.Station, place.Blade),
                                    places.Said(place.Station, place.Blade),
                                    believed,
                                    place.System,
                                    place.Doubt,
                                    NaturalBounds.Of(quantity)
                                )
                                {
                                    IsReadInBoth = place.IsReadInBoth,
                                },
                                zone,
                                decision
                            )
                        )
                        .ToList()
                )
                .Where(IsOutEitherWay)
                .Select(LeastOut),
        ];

    /// <summary>
    /// The same of what several places tell together, such as a tilt: judged under every choice of what may be believed of
    /// all of them, and told where it is out the same way under each. Out one way under one choice and the other way under
    /// another, what is true may lie between.
    /// </summary>
    /// <param name="places">Of one unit and quantity, or of as many as are held together.</param>
    /// <param name="judged">Judges them under one choice, in the order given.</param>
    public static ImmutableArray<PlaceJudgement> Among(
        ImmutableArray<UnitPlaces> places,
        Func<ImmutableArray<UnitPlaces>, IEnumerable<PlaceJudgement>> judged
    )
    {
        IEnumerable<ImmutableArray<UnitPlaces>> choices =
        [
            [],
        ];
        var count = 1;
        foreach (var each in places)
        {
            var believed = each.Believed();
            ImmutableArray<UnitPlaces> options = believed.IsEmpty ? [each] : believed;
            count = Math.Min(count, MostChoices) * options.Length;
            choices = choices.SelectMany(_ => options, (chosen, option) => chosen.Add(option));
        }

        if (count is 1 or > MostChoices)
        {
            return [];
        }

        // What is out by readings that nothing contradicts is told already.
        var isOutAnyway = judged(places)
            .Select(each => each.Compared)
            .Where(each => each.Verdict is Verdict.NotMet)
            .Select(each => each.Place)
            .ToHashSet(StringComparer.Ordinal);
        // What is judged depends on where was read, not on what: every choice is judged at the same places in the same order.
        var outcomes = choices.Select(chosen => judged(chosen).ToList()).ToList();
        return
        [
            .. Enumerable
                .Range(0, outcomes.Min(each => each.Count))
                .Select(index => outcomes.ConvertAll(each => each[index]))
                .Where(IsOutEitherWay)
                .Select(LeastOut)
                .Where(each => !isOutAnyway.Contains(each.Compared.Place)),
        ];
    }

    /// <summary>An outcome with the breaches that stand in doubt: what is said of them, and what has to come first.</summary>
    public static CheckOutcome Told(
        CheckOutcome outcome,
        ImmutableArray<PlaceJudgement> contested,
        params ReadOnlySpan<(MeasuredQuantity Quantity, UnitPlaces Places)> of
    )
    {
        if (contested.IsEmpty)
        {
            return outcome;
        }

        Remedy? again = null;
        foreach (var (quantity, places) in of)
        {
            again ??= places.Contested.IsEmpty ? null : Remedy(quantity, places);
        }

        return outcome with
        {
            Notices = [.. outcome.Notices, Doubt],
            Remedy = again ?? outcome.Remedy,
        };
    }

    public static (string Where, string Told) Notice(PlaceJudgement contested) => (contested.Where, Doubt);

    /// <summary>How far to turn is not known before they are repeated.</summary>
    public static Remedy Remedy(MeasuredQuantity quantity, UnitPlaces places) =>
        new Remedy.ReadAgain(quantity, [.. places.Obstacles.Select(obstacle => obstacle.Place)], WhyAgain);

    private static PlaceJudgement LeastOut(List<PlaceJudgement> judged) =>
        judged.MaxBy(each => each.Compared.Margin)!;

    private static bool IsOutEitherWay(List<PlaceJudgement> judged) =>
        judged.TrueForAll(each => each.Compared.Verdict is Verdict.NotMet)
        && judged.ConvertAll(each => (each.Way, IsAbove(each.Compared))).Distinct().Count() == 1;

    private static bool IsAbove(Comparison compared) =>
        (compared.Value ?? compared.KnownLower) is { } least && least >= compared.UpperLimit;
}
