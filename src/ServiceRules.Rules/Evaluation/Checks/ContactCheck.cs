using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>
/// Contact as left is what the school in force asks: over a gap none, noted over the full width or shown by a gap
/// proven at both gauging stations; else light over the full width. Heavy contact is a fault in both, and what was read of the gap
/// is never outvoted by a look.
/// </summary>
internal static class ContactCheck
{
    public static CheckOutcome Evaluate(Check.Contact check, Rule rule, JobFrame frame, UnitFrame? unit)
    {
        if (unit is null)
        {
            return Subjects.EachUnit(rule, frame);
        }

        var quantity = check.Quantity;
        var subject = Wording.Sentence(Wording.Of(quantity));
        if (unit.Sheet.Of(quantity) is not { Schools.IsEmpty: false })
        {
            return Told.NotApplicable($"{subject}: the limit sheet teaches no procedure");
        }

        if (ContactFault.Heavy(unit, quantity) is { } heavy)
        {
            return heavy;
        }

        return SchoolInForce.For(quantity, unit) switch
        {
            null => SchoolInForce.NotChosen(subject),
            ContactSchool.LightContact => LightContactProcedure.Evaluate(unit, quantity),
            _ => OverAGap(unit, quantity, subject, rule, frame),
        };
    }

    private static CheckOutcome OverAGap(
        UnitFrame unit,
        MeasuredQuantity quantity,
        string subject,
        Rule rule,
        JobFrame frame
    )
    {
        if (ContactFault.InAirGap(unit, quantity) is { } touches)
        {
            return touches;
        }

        var read = LookAgainstLengths.OfAGap(quantity, rule, frame, unit);
        if (read is { Verdict: Verdict.NotMet })
        {
            return read;
        }

        if ((ContactFault.Contradicted(unit, quantity) ?? read) is { } against)
        {
            return against;
        }

        var noted = ContactFault.Noted(unit, quantity);
        var across = noted.FirstOrDefault(place => place.Station is null && place.Blade is null);
        if (across is not null)
        {
            return Told.Met($"{subject}: no contact over the full width", across.Evidence);
        }

        var places = UnitPlaces.Of(unit, quantity);
        if (places.Obstacles.IsEmpty && places.Usable.All(IsGap))
        {
            return Told.Met(
                $"{subject}: a gap at {Wording.Listed([.. places.Usable.Select(place => UnitPlaces.Name(place.Station, place.Blade))])}",
                [.. places.Usable.SelectMany(place => place.Evidence)]
            );
        }

        var (reason, why, again) = ContactPlaces.Missing(unit, quantity, noted);
        return Told.Unproven(
            reason,
            $"{subject}: {why}",
            Told.Sorted(noted.SelectMany(place => place.Evidence)),
            new Remedy.ReadAgain(quantity, ["across"], again)
        );
    }

    private static bool IsGap(PlaceKnown place) =>
        place.Doubt is FindingReason.None
        && place.Knowledge switch
        {
            LengthInterval { Lower: { } lower } => lower.Value > Length.Zero,
            MeasuredValue measured => measured.Value - measured.Expanded.Value > Length.Zero,
            _ => false,
        };
}
