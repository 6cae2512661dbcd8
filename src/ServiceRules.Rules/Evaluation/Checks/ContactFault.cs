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
        [.. (unit.Of(quantity)?.Left ?? []).Where(place => !place.ContactBelieved.IsEmpty)];

    /// <summary>
    /// Contact that was noted in two ways, or where a gap was read, with nothing turned between, place by place in words; null where none was.
    /// </summary>
    public static CheckOutcome? Contradicted(UnitFrame unit, MeasuredQuantity quantity)
    {
        var contested = Noted(unit, quantity).Where(place => place.ContactContradiction is not null).ToList();
        if (contested.Count == 0)
        {
            return BesideAGap(unit, quantity);
        }

        var places = UnitPlaces.Of(unit, quantity);
        var told = contested.ConvertAll(place =>
            (place.Station is null ? string.Empty : $"at {places.Said(place.Station, place.Blade)} ")
            + place.ContactContradiction!.Words
        );
        return Told.Unproven(
            FindingReason.Conflicting,
            $"{Wording.Sentence(Wording.Of(quantity))}: contact was noted in two ways: {string.Join("; ", told)}: {Contradiction.WhatSettlesIt}",
            Told.Sorted(contested.SelectMany(place => place.Evidence)),
            new Remedy.ReadAgain(
                quantity,
                [.. contested.Select(place => UnitPlaces.Name(place.Station, place.Blade))],
                Contradiction.WhatSettlesIt
            )
        );
    }

    /// <summary>Contact that was noted where a gap was read, with nothing turned between, both told; null where none was.</summary>
    private static CheckOutcome? BesideAGap(UnitFrame unit, MeasuredQuantity quantity)
    {
        var all = (unit.Of(quantity)?.Left ?? []).Where(place => place.GapContradiction is not null).ToList();
        // Contact over the width is told where it contradicts what was read.
        var contested = all.FindAll(place => !place.Contested.IsEmpty);
        if (contested.Count == 0)
        {
            return null;
        }

        var places = UnitPlaces.Of(unit, quantity);
        var told = contested.ConvertAll(place =>
            (place.Station is null ? string.Empty : $"at {places.Said(place.Station, place.Blade)} ")
            + place.GapContradiction!.Words
        );
        return Told.Unproven(
            FindingReason.Conflicting,
            $"{Wording.Sentence(Wording.Of(quantity))}: contact was noted where a gap was read: {string.Join("; ", told)}",
            Told.Sorted(all.SelectMany(place => place.Evidence)),
            new Remedy.ReadAgain(
                quantity,
                [.. all.Select(place => UnitPlaces.Name(place.Station, place.Blade))],
                Contradiction.WhatSettlesAGap
            )
        );
    }

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

    /// <summary>
    /// What is met by feelers is unproven while contact was noted in two ways; and what only contact beside a gap keeps from being
    /// known is told so, both named.
    /// </summary>
    public static CheckOutcome Doubting(CheckOutcome outcome, UnitFrame unit, MeasuredQuantity quantity)
    {
        if (
            outcome is { Verdict: Verdict.Unproven, Reason: FindingReason.Conflicting }
            && BesideAGap(unit, quantity) is { } beside
        )
        {
            return outcome with
            {
                Statement = beside.Statement,
                Evidence = beside.Evidence,
                Remedy = beside.Remedy,
            };
        }

        if (outcome.Verdict is not Verdict.Met)
        {
            return outcome;
        }

        if (Contradicted(unit, quantity) is { } contradicted)
        {
            return contradicted;
        }

        var across = (unit.Of(quantity)?.Left ?? []).FirstOrDefault(place =>
            place is { Station: null, Blade: null, State: KnownState.Conflicting }
        );
        if (across is null)
        {
            return outcome;
        }

        const string why = "what was read over the width contradicts itself";
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
        // Where a gap was read beside it neither is shown.
        var faults = Noted(unit, quantity)
            .Where(place => place.GapContradiction is null && place.ContactBelieved.All(isFault))
            .ToList();
        if (faults.Count == 0)
        {
            return null;
        }

        var at = faults.Exists(place => place is { Station: null, Blade: null })
            ? string.Empty
            : $" at {ContactPlaces.Named(unit, quantity, faults)}";
        var oneSided = quantity is MeasuredQuantity.Clearance ? OneSidedContact.Of(unit, quantity) : null;
        return Told.NotMet(
            reason,
            $"{Wording.Sentence(Wording.Of(quantity))}: {Wording.Of(faults[0].ContactBelieved[0])}{at}, {why}{oneSided?.Statement}",
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
