using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>Whoever put a tag on had been taught what a tag can and cannot do.</summary>
internal static class TrainedInTagsDuty
{
    private const string Act =
        "Teach the limits of tags to whoever hangs them, and enter the day in the register.";

    public static CheckOutcome Judge(DutyFrame duty)
    {
        var hangings = JobPeople.FirstOfEach(JobPeople.TagHangings(duty)).ToList();
        return hangings.Count == 0
            ? TimelineOutcome.NotApplicable("The record shows no tag put on.")
            : RegisterOutcome.Of(
                hangings.Select(hanging => Fault(duty, hanging)),
                "The register shows everybody who put a tag on taught the limits of tags.",
                hangings.Evidence()
            );
    }

    private static RegisterFault? Fault(DutyFrame duty, OrderedEvent hanging)
    {
        var person = hanging.Event.Actor;
        return duty.PersonOf(person) switch
        {
            null => RegisterFault.Unsaid(
                $"The register of people does not have {person}, who put {JobPeople.Named(hanging)} on.",
                "Enter the person and their training in the register.",
                hanging.Pointer()
            ),
            { TagLimitsOn: null } => RegisterFault.Wrong(
                FindingReason.NotRegistered,
                $"{person} put {JobPeople.Named(hanging)} on, and the register has no day on which {person} was taught the limits of tags.",
                Act,
                hanging.Pointer()
            ),
            { TagLimitsOn: { } on } when on > JobPeople.DayOf(duty, hanging) => RegisterFault.Wrong(
                FindingReason.OutOfDate,
                $"{person} put {JobPeople.Named(hanging)} on, and was taught the limits of tags only on {RegisterOutcome.Day(on)}.",
                Act,
                hanging.Pointer()
            ),
            _ => null,
        };
    }
}
