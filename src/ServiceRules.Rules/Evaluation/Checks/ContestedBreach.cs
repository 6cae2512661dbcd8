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
                                ),
                                zone,
                                decision
                            )
                        )
                        .ToList()
                )
                .Where(IsOutEitherWay)
                .Select(judged => judged.MaxBy(each => each.Compared.Margin)!),
        ];

    public static string Notice(PlaceJudgement contested) =>
        $"{contested.Where}: readings contradict one another; it is out whichever of them is believed, by how much is not known";

    /// <summary>How far to turn is not known before they are repeated.</summary>
    public static Remedy Remedy(MeasuredQuantity quantity, UnitPlaces places) =>
        new Remedy.ReadAgain(
            quantity,
            [.. places.Obstacles.Select(obstacle => obstacle.Place)],
            "out whichever reading is believed, but they contradict one another, so that they do not tell how far to turn"
        );

    private static bool IsOutEitherWay(List<PlaceJudgement> judged) =>
        judged.TrueForAll(each => each.Compared.Verdict is Verdict.NotMet)
        && judged.ConvertAll(each => IsAbove(each.Compared)).Distinct().Count() == 1;

    private static bool IsAbove(Comparison compared) =>
        (compared.Value ?? compared.KnownLower) is { } least && least >= compared.UpperLimit;
}
