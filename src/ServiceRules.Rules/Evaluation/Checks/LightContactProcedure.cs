using System.Globalization;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Bench;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>Light contact, heard and felt over the full width, nothing turned after.</summary>
internal static class LightContactProcedure
{
    public static CheckOutcome Evaluate(UnitFrame unit, MeasuredQuantity quantity)
    {
        var subject = Wording.Sentence(Wording.Of(quantity));
        var noted = ContactFault.Noted(unit, quantity);
        var wrong = noted.FirstOrDefault(place =>
            place.ContactBelieved.All(contact => contact is ContactState.None or ContactState.Partial)
        );
        if (wrong is { GapContradiction: not null })
        {
            // Out whichever is so: it touches over a part of the width, or not at all.
            return Told.NotMet(
                FindingReason.WrongContact,
                $"{subject}: {Wording.Of(wrong.ContactBelieved[0])} at {ContactPlaces.Named(unit, quantity, [wrong])}, where a gap was read with nothing turned between; this unit is set to light contact over the full width",
                wrong.Evidence,
                new Remedy.ReadAgain(
                    quantity,
                    [UnitPlaces.Name(wrong.Station, wrong.Blade)],
                    Contradiction.WhatSettlesAGap
                )
            );
        }

        if (wrong is not null)
        {
            var isAcross = ContactPlaces.IsAcross(wrong);
            var at = isAcross ? string.Empty : $" at {ContactPlaces.Named(unit, quantity, [wrong])}";
            return Told.NotMet(
                FindingReason.WrongContact,
                $"{subject}: {Wording.Of(wrong.ContactBelieved[0])}{at}, and this unit is set to light contact over the full width",
                wrong.Evidence,
                new Remedy.Act(
                    wrong.ContactBelieved[0] is ContactState.Partial
                    || (!isAcross && noted.Any(place => !place.ContactBelieved.Contains(ContactState.None)))
                        ? "close only the side that does not touch, one step at a time, until light contact is heard and felt over the full width; where neither side brings it there, the edges do not meet straight: grind"
                        : "close one step at a time, both sides alternately, until light contact is heard and felt over the full width"
                            + FromAFeeler(unit, quantity)
                )
            );
        }

        if (ContactFault.Contradicted(unit, quantity) is { } contradicted)
        {
            return contradicted;
        }

        var across = noted.FirstOrDefault(place => place.Station is null && place.Blade is null);
        if (across is not null && LookAgainstLengths.OfContact(unit, quantity) is { } open)
        {
            return open;
        }

        if (across is not null)
        {
            return Told.Met($"{subject}: light contact over the full width", across.Evidence);
        }

        var (reason, why, again) = ContactPlaces.Missing(unit, quantity, noted);
        return Told.Unproven(
            reason,
            $"{subject}: {why}",
            Told.Sorted(noted.SelectMany(place => place.Evidence)),
            new Remedy.ReadAgain(quantity, ["across"], again)
        );
    }

    /// <summary>About how many steps that is from a feeler that the sheet names; nothing when it names none.</summary>
    private static string FromAFeeler(UnitFrame unit, MeasuredQuantity quantity)
    {
        var feeler = unit
            .Sheet.Of(quantity)
            ?.Schools.Select(each => each.Passes)
            .FirstOrDefault(each => each is not null);
        if (
            feeler is null
            || AdjustedQuantity.FinelySetBy(quantity) is not { } kind
            || StepInForce.Of(unit, kind) is not { } step
        )
        {
            return string.Empty;
        }

        var steps = ShimAndClick.StepsToTouch(feeler.Governing.Value, step.Most);
        return string.Create(
            CultureInfo.InvariantCulture,
            $"; from a {feeler.Governing} feeler that just drags at both ends that is about {steps} steps on each side (derived)"
        );
    }
}
