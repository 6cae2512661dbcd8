using ServiceRules.Domain.Site;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>Where a tag hung in place of a lock, the last inspection went through the limits of tags, also with the people affected.</summary>
internal static class InspectionTagReviewDuty
{
    public static CheckOutcome Judge(DutyFrame duty) =>
        IsTagInPlaceOfLock(duty)
            ? Inspections.Judge(duty, (procedure, inspection) => Judge(duty, procedure, inspection))
            : TimelineOutcome.NotApplicable("The record shows no tag in place of a lock.");

    private static CheckOutcome Judge(DutyFrame duty, Procedure procedure, ProcedureInspection inspection)
    {
        var left = JobPeople.Affected(duty).Where(person => !inspection.People.Contains(person)).ToList();
        RegisterFault? names =
            left.Count == 0
                ? null
                : RegisterFault.Wrong(
                    FindingReason.StepMissing,
                    $"A tag hung in place of a lock, and the inspection of procedure {procedure.Id} on {RegisterOutcome.Day(inspection.On)} went through nothing with {TimelineWords.List(left.Select(person => person.Text))}, who are affected.",
                    "Go through the procedure and the limits of tags with the people affected, and enter it in the certificate.",
                    [.. left.Select(person => JobPeople.PointerOf(duty, person))]
                );
        RegisterFault? limits = inspection.TagLimitsReviewed
            ? null
            : RegisterFault.Unsaid(
                $"A tag hung in place of a lock, and the certificate of the inspection of procedure {procedure.Id} does not say that the limits of tags were gone through.",
                "Go through the limits of tags at the next inspection, and enter it in the certificate.",
                Inspections.Machine
            );
        return RegisterOutcome.Of(
            [names, limits],
            $"The inspection of procedure {procedure.Id} on {RegisterOutcome.Day(inspection.On)} went through the limits of tags, also with the people affected.",
            [Inspections.Machine]
        );
    }

    // A tag beside a lock on one source takes no lock's place.
    private static bool IsTagInPlaceOfLock(DutyFrame duty) =>
        duty.Reading.Devices.Any(tag =>
            tag.IsTag
            && !duty.Reading.Devices.Any(other =>
                !other.IsTag
                && other.Applied.Event.Source == tag.Applied.Event.Source
                && !other.Interval.Overlap(tag.Interval).IsEmpty
            )
        );
}
