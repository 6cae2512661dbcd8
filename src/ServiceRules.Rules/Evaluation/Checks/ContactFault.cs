using System.Collections.Immutable;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>Contact as left, held against the school. Heavy contact is a fault in both.</summary>
internal static class ContactFault
{
    /// <summary>Places where contact was noted and nothing turned since.</summary>
    public static ImmutableArray<PlaceKnown> Noted(UnitFrame unit) =>
        [.. (unit.Of(MeasuredQuantity.Clearance)?.Left ?? []).Where(place => place.Contact is not null)];

    /// <summary>Heavy contact anywhere; null when there is none.</summary>
    public static CheckOutcome? Heavy(UnitFrame unit) =>
        Fault(
            unit,
            contact => contact is ContactState.Heavy,
            FindingReason.HeavyContact,
            "a fault whichever way the site sets its units"
        );

    /// <summary>Any contact at all, which a unit set to a gap must not have; null when there is none.</summary>
    public static CheckOutcome? InAirGap(UnitFrame unit) =>
        Heavy(unit)
        ?? Fault(
            unit,
            contact => contact is not ContactState.None,
            FindingReason.WrongContact,
            "this unit is set to a gap"
        );

    private static CheckOutcome? Fault(
        UnitFrame unit,
        Func<ContactState, bool> isFault,
        FindingReason reason,
        string why
    )
    {
        var faults = Noted(unit).Where(place => isFault(place.Contact!.Value)).ToList();
        return faults.Count == 0
            ? null
            : Told.NotMet(
                reason,
                $"Clearance: {Wording.Of(faults[0].Contact!.Value)}, {why}",
                [.. faults.SelectMany(place => place.Evidence)],
                ClearanceRemedy.FromContact(unit)
            );
    }
}
