using ServiceRules.Domain.Records;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>Notices are asked only where there is somebody to tell.</summary>
internal static class AffectedPeople
{
    /// <summary>What a notice comes to where there is none to give; else null.</summary>
    public static CheckOutcome? NoneToTell(DutyFrame duty) =>
        duty.Record.People.Any(person => person.Role == JobRole.Affected)
            ? null
            : TimelineOutcome.NotApplicable("The record names nobody else who is affected by the job.");

    /// <summary>Something that comes in its turn, on a job that goes on.</summary>
    public static CheckOutcome NotYet(string what, string act) =>
        TimelineOutcome.OfFaults([TimelineFault.NotYet(what, act, by: null)]);
}
