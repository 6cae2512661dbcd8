using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Checks;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>
/// Locks and tags were put on only by authorised people with a part in the work or in charge of its group. What their
/// training covers, and until when, other duties say.
/// </summary>
internal static class OnlyAuthorisedHangDuty
{
    public static CheckOutcome Judge(DutyFrame duty)
    {
        var hangings = JobPeople.FirstOfEach(JobPeople.Hangings(duty)).ToList();
        if (hangings.Count == 0)
        {
            return TimelineOutcome.NotApplicable("The record shows no lock or tag put on.");
        }

        // Who it was rests on no time: doubtful times take nothing from it.
        var faults = hangings
            .SelectMany(hanging => new[] { NotAuthorised(duty, hanging), WithoutPart(duty, hanging) })
            .OfType<TimelineFault>()
            .ToList();
        return faults.Count == 0
            ? Told.Met(
                "The record shows devices put on only by authorised people who worked on the job or were in charge of it.",
                hangings.Evidence()
            )
            : TimelineOutcome.OfFaults(faults);
    }

    private static TimelineFault? NotAuthorised(DutyFrame duty, OrderedEvent hanging)
    {
        var person = hanging.Event.Actor;
        return duty.PersonOf(person) switch
        {
            null => new(
                Verdict.Unproven,
                FindingReason.NotRegistered,
                $"{Put(duty, hanging)}, and the register of people does not have {person}.",
                [hanging],
                "Enter the person in the register."
            ),
            { Authorised: false } => Wrong(
                $"{Put(duty, hanging)}, and {person} is not authorised to lock out.",
                hanging,
                "Only authorised people put locks and tags on."
            ),
            _ => null,
        };
    }

    private static TimelineFault? WithoutPart(DutyFrame duty, OrderedEvent hanging)
    {
        var person = hanging.Event.Actor;
        if (
            duty.Reading.HandsIn.Contains(person)
            || duty.Reading.AtTheStop.Contains(person)
            || JobPeople.Primaries(duty).Contains(person)
        )
        {
            return null;
        }

        const string act =
            "Put devices on yourself if you work on the job; name who is in charge of the group.";
        var text =
            $"{Put(duty, hanging)}, and the record shows {person} neither at work nor in charge of the group.";
        return duty.Reading.IsOpen
            ? new(Verdict.Unproven, FindingReason.InProgress, text, [hanging], act)
            : Wrong(text, hanging, act);
    }

    private static string Put(DutyFrame duty, OrderedEvent hanging) =>
        $"{Wording.Sentence(JobPeople.Named(hanging))} was put on {duty.Words.AtBy(hanging)}";

    private static TimelineFault Wrong(string text, OrderedEvent hanging, string act) =>
        new(Verdict.NotMet, FindingReason.WrongPerson, text, [hanging], act);
}
