using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>
/// Above the worn value nothing is asked. At or below it the bedknife must stand in its worn position: the record
/// shows it moved there in this job, or a fitted part's note says that it was moved before.
/// </summary>
internal static class WornReel
{
    public static CheckOutcome Evaluate(MeasuredQuantity quantity, Rule rule, UnitFrame unit)
    {
        var subject = Wording.Sentence(Wording.Of(quantity));
        if (unit.Sheet.Of(quantity)?.WornBelow is not { } worn)
        {
            return Told.NotApplicable($"{subject}: the limit sheet states no worn value");
        }

        var places = UnitPlaces.Of(unit, quantity);
        // Worn is worn wherever it is read: the smallest diameter decides, and one place is enough to show it.
        var judged = places
            .Usable.Select(place => Judged(quantity, rule, places, place, PrintedZone.Of(worn, null, null)!))
            .ToList();
        var contested = ContestedBreach.Among(
            quantity,
            places,
            PrintedZone.Of(worn, null, null)!,
            rule.Decision
        );
        var outcome = JudgedPlaces.Outcome(
            Wording.Of(quantity),
            [.. judged, .. contested],
            places.Obstacles,
            places.Usable.SelectMany(place => place.Evidence)
        );
        outcome = outcome with
        {
            Notices = [.. outcome.Notices, .. Alike.Once(contested.Select(ContestedBreach.Notice))],
        };
        return outcome.Verdict switch
        {
            Verdict.Met when !IsAtLimit(outcome) => outcome,
            Verdict.Unproven => (places.Obstacles.IsEmpty ? Repositioned(unit, outcome) : null)
                ?? outcome with
                {
                    Remedy = ReadAgain.For(outcome, quantity, places),
                },
            _ => Repositioned(unit, outcome)
                ?? Worn(outcome, subject, worn, IsPastService(quantity, rule, unit, places)),
        };
    }

    /// <summary>Whether it is proven to be below what the sheet lets stay in service: then it goes, however it would be set up.</summary>
    private static bool IsPastService(
        MeasuredQuantity quantity,
        Rule rule,
        UnitFrame unit,
        UnitPlaces places
    ) =>
        unit.Sheet.Of(quantity)?.Lower is { } least
        && PrintedZone.Of(least, null, null) is { } zone
        && places.Usable.Any(place =>
            Judged(quantity, rule, places, place, zone).Compared.Verdict is Verdict.NotMet
        );

    private static PlaceJudgement Judged(
        MeasuredQuantity quantity,
        Rule rule,
        UnitPlaces places,
        PlaceKnown place,
        PrintedZone zone
    ) =>
        PlaceJudgement.Of(
            new(
                quantity,
                UnitPlaces.Name(place.Station, place.Blade),
                places.Said(place.Station, place.Blade),
                place.Knowledge!,
                place.System,
                place.Doubt,
                NaturalBounds.Of(quantity)
            )
            {
                IsReadInBoth = place.IsReadInBoth,
            },
            zone,
            rule.Decision
        );

    /// <summary>Exactly at the worn value counts as worn, while a limit counts its own value as inside.</summary>
    private static bool IsAtLimit(CheckOutcome outcome) =>
        outcome.Comparisons.Any(compared => compared.Value is { } value && value == compared.LowerLimit);

    /// <summary>
    /// A bedknife set for a worn reel answers the requirement whether the reel is proven worn or not. What was set before
    /// the reel was ground or fitted was set for another diameter.
    /// </summary>
    private static CheckOutcome? Repositioned(UnitFrame unit, CheckOutcome outcome)
    {
        for (var index = unit.Work.Entries.Length - 1; index >= 0; index--)
        {
            switch (unit.Work.Entries[index])
            {
                case Adjustment { Adjuster: AdjusterKind.BedknifePosition }:
                    return outcome with
                    {
                        Verdict = Verdict.Met,
                        Reason = FindingReason.None,
                        Statement =
                            $"{Wording.Sentence(Wording.Of(outcome.Comparisons[0].Quantity))}: "
                            + (outcome.Verdict == Verdict.Unproven ? "worn or not" : "worn")
                            + ", and the bedknife was set to its position for a worn reel",
                        Evidence = Told.Sorted([.. outcome.Evidence, Pointers.Entry(unit.Index, index)]),
                    };
                case Grinding { Kind: GrindingKind.ReelSpin or GrindingKind.ReelRelief }
                or PartFitted { Part: PartKind.Reel }:
                    return null;
                default:
                    break;
            }
        }

        return null;
    }

    private static CheckOutcome Worn(
        CheckOutcome outcome,
        string subject,
        DualPrint worn,
        bool isPastService
    ) =>
        outcome with
        {
            Verdict = Verdict.NotMet,
            Reason = FindingReason.OutOfLimit,
            Statement =
                $"{subject}: worn to {worn} or below, and the record does not show the bedknife set to its position for a worn reel",
            Remedy = new Remedy.Act(
                isPastService
                    ? "replace the reel: it is below its service limit, and a new one is not set up as a worn one"
                    : "set the bedknife to its position for a worn reel and the front roller with it, then set the unit again"
            ),
        };
}
