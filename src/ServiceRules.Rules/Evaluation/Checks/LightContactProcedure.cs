using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>Light contact, heard and felt over the full width, nothing turned after.</summary>
internal static class LightContactProcedure
{
    public static CheckOutcome Evaluate(UnitFrame unit)
    {
        var noted = ContactFault.Noted(unit);
        var wrong = noted.FirstOrDefault(place => place.Contact is ContactState.None or ContactState.Partial);
        if (wrong is not null)
        {
            return Told.NotMet(
                FindingReason.WrongContact,
                $"Clearance: {Wording.Of(wrong.Contact!.Value)}, and this unit is set to light contact over the full width",
                wrong.Evidence,
                new Remedy.Act(
                    "close one step at a time, both sides alternately, until light contact is heard and felt over the full width"
                )
            );
        }

        var across = noted.FirstOrDefault(place => place.Station is null && place.Blade is null);
        if (across is not null)
        {
            return Told.Met("Clearance: light contact over the full width", across.Evidence);
        }

        var (reason, why) = Missing(unit, noted.Length);
        return Told.Unproven(
            reason,
            $"Clearance: {why}",
            remedy: new Remedy.ReadAgain(MeasuredQuantity.Clearance, ["across"], why)
        );
    }

    private static (FindingReason Reason, string Why) Missing(UnitFrame unit, int notedAtStations)
    {
        var left = unit.Of(MeasuredQuantity.Clearance)?.Left ?? [];
        var across = left.FirstOrDefault(place => place.Station is null);
        return across switch
        {
            { State: KnownState.Conflicting } => (
                FindingReason.Conflicting,
                "contact was noted in two ways with nothing turned between: repeat it"
            ),
            { State: KnownState.Stale } => (
                FindingReason.Stale,
                "something was turned after contact was noted: check again"
            ),
            _ => notedAtStations > 0
                ? (
                    FindingReason.TooFewStations,
                    "contact was noted at single places, not over the full width"
                )
                : (FindingReason.NotMeasured, "contact was not noted"),
        };
    }
}
