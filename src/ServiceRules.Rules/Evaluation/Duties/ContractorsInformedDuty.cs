using System.Collections.Immutable;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>Site and outside employer told each other how they lock out before anybody from outside began.</summary>
internal static class ContractorsInformedDuty
{
    public static CheckOutcome Judge(DutyFrame duty)
    {
        var outside = duty
            .Reading.HandsIn.Concat(
                duty.Reading.Of(TimelineEventKind.LockApplied, TimelineEventKind.TagApplied)
                    .Select(entry => entry.Event.Actor)
            )
            .Distinct()
            .Where(person => duty.IsFromOutside(person) || IsUnknown(duty, person))
            .ToImmutableArray();
        if (outside.IsEmpty)
        {
            return TimelineOutcome.NotApplicable(
                "The register shows everybody who has a part in this job, and nobody of an outside employer."
            );
        }

        var exchanged = duty.Reading.Of(TimelineEventKind.ContractorProceduresExchanged);
        var faults = new List<TimelineFault>();
        var restsOn = new List<OrderedEvent>();
        foreach (var person in outside)
        {
            var first = FirstPart(duty, person);
            var entry = exchanged.FirstOrDefault(entry =>
                Concerns(entry, person) && (first is null || entry.Place() < first.Place())
            );
            if (entry is not null)
            {
                restsOn.Add(entry);
            }
            else
            {
                faults.Add(Fault(duty, person, first));
            }
        }

        return faults.Count > 0
            ? TimelineOutcome.OfFaults(faults)
            : TimelineOutcome.Met(
                duty.Reading,
                $"The record shows {EventWords.Done(TimelineEventKind.ContractorProceduresExchanged)} before {TimelineWords.List(outside.Select(person => person.Text))} began.",
                [.. restsOn.Distinct()]
            );
    }

    private static TimelineFault Fault(DutyFrame duty, Id<Participant> person, OrderedEvent? first)
    {
        var what = EventWords.Done(TimelineEventKind.ContractorProceduresExchanged);
        if (IsUnknown(duty, person))
        {
            return new(
                Verdict.Unproven,
                FindingReason.NotRegistered,
                $"The register of people does not have {person}: who they work for is not shown, and the record does not show {what} "
                    + (
                        first is null
                            ? $"for {person}."
                            : $"before {EventWords.Done(first.Event.Kind)} {duty.Words.AtBy(first)}."
                    ),
                first is null ? [] : [first],
                "Enter the person and their employer in the register; tell each other how you lock out before anybody from outside begins."
            );
        }

        return first is null && duty.Reading.IsOpen
            ? TimelineFault.NotYet(
                $"{what} for {person}",
                LeadUpOutcome.DoItFirst,
                by: $"Do it before {person} begins"
            )
            : new(
                Verdict.NotMet,
                FindingReason.StepMissing,
                first is null
                    ? $"The record does not show {what} for {person}."
                    : $"The record does not show {what} before it shows {EventWords.Done(first.Event.Kind)} {duty.Words.AtBy(first)}, who works for an outside employer.",
                first is null ? [] : [first],
                "Tell each other how you lock out before anybody from outside begins."
            );
    }

    /// <summary>Whom the register does not have may work for anybody.</summary>
    private static bool IsUnknown(DutyFrame duty, Id<Participant> person) => duty.PersonOf(person) is null;

    private static OrderedEvent? FirstPart(DutyFrame duty, Id<Participant> person) =>
        duty
            .Reading.Of(
                TimelineEventKind.LockApplied,
                TimelineEventKind.TagApplied,
                TimelineEventKind.WorkStarted
            )
            .FirstOrDefault(entry => entry.Event.Actor == person);

    private static bool Concerns(OrderedEvent entry, Id<Participant> person) =>
        entry.Event.Others.IsEmpty || entry.Event.Actor == person || entry.Event.Others.Contains(person);
}
