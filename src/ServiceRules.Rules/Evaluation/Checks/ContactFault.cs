using System.Collections.Immutable;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>Contact as left, held against the school. Heavy contact is a fault in both.</summary>
internal static class ContactFault
{
    /// <summary>Places where contact was noted and nothing turned since.</summary>
    public static ImmutableArray<PlaceKnown> Noted(UnitFrame unit, MeasuredQuantity quantity) =>
        [.. (unit.Of(quantity)?.Left ?? []).Where(place => place.Contact is not null)];

    /// <summary>Heavy contact anywhere; null when there is none.</summary>
    public static CheckOutcome? Heavy(UnitFrame unit, MeasuredQuantity quantity) =>
        Fault(
            unit,
            quantity,
            contact => contact is ContactState.Heavy,
            FindingReason.HeavyContact,
            "a fault whichever way the site sets its units"
        );

    /// <summary>Any contact at all, where a gap is wanted; null when there is none.</summary>
    public static CheckOutcome? InAirGap(UnitFrame unit, MeasuredQuantity quantity) =>
        Heavy(unit, quantity)
        ?? Fault(
            unit,
            quantity,
            contact => contact is not ContactState.None,
            FindingReason.WrongContact,
            "this unit is set to a gap"
        );

    /// <summary>What is met by feelers is unproven while contact over the width was noted in two ways.</summary>
    public static CheckOutcome Doubting(CheckOutcome outcome, UnitFrame unit, MeasuredQuantity quantity)
    {
        var across = (unit.Of(quantity)?.Left ?? []).FirstOrDefault(place =>
            place is { Station: null, Blade: null, State: KnownState.Conflicting }
        );
        if (across is null || outcome.Verdict is not Verdict.Met)
        {
            return outcome;
        }

        const string why = "contact was noted in two ways with nothing turned between: repeat it";
        return Told.Unproven(
            FindingReason.Conflicting,
            $"{Wording.Sentence(Wording.Of(quantity))}: {why}",
            across.Evidence,
            new Remedy.ReadAgain(quantity, ["across"], why)
        );
    }

    private static CheckOutcome? Fault(
        UnitFrame unit,
        MeasuredQuantity quantity,
        Func<ContactState, bool> isFault,
        FindingReason reason,
        string why
    )
    {
        var faults = Noted(unit, quantity).Where(place => isFault(place.Contact!.Value)).ToList();
        if (faults.Count == 0)
        {
            return null;
        }

        var oneSided = quantity is MeasuredQuantity.Clearance ? OneSidedContact.Of(unit, quantity) : null;
        return Told.NotMet(
            reason,
            $"{Wording.Sentence(Wording.Of(quantity))}: {Wording.Of(faults[0].Contact!.Value)}, {why}{oneSided?.Statement}",
            [.. faults.SelectMany(place => place.Evidence).Concat(oneSided?.Evidence ?? []).Distinct()],
            oneSided?.Remedy
                ?? (
                    quantity is MeasuredQuantity.Clearance
                        ? ClearanceRemedy.FromContact(unit)
                        : new Remedy.Act("open it until it touches no more than it should")
                )
        );
    }
}
