using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Duties;
using ServiceRules.Rules.Evaluation.Timeline;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>A part of the record is there, and says what it should.</summary>
internal static class RecordPartCheck
{
    public static CheckOutcome Evaluate(Check.RecordPart check, Rule rule, JobFrame frame, UnitFrame? unit) =>
        check.Part switch
        {
            RequiredPart.SignOff => SignedOff(frame, check.By),
            RequiredPart.FollowUp => FollowedUp(frame),
            RequiredPart.SafetyDefectsClosed => DefectsClosed.Judge(DutyFrame.Of(rule, frame)),
            RequiredPart.BlockageByTool => Clearing.ByTool(TimelineReading.Of(frame)),
            _ => throw new InvalidOperationException("parts of a record are a closed family"),
        };

    private static CheckOutcome SignedOff(JobFrame frame, PersonAsked? asked)
    {
        if (frame.Record.SignOff is not { } signOff)
        {
            return TimelineOutcome.Of(
                Verdict.Unproven,
                FindingReason.InProgress,
                "The job is not signed off yet.",
                [],
                "Sign the job off when it is done."
            );
        }

        var moment = JudgedOrder.MomentOf(signOff.At, frame.Context.Zone);
        var after = frame.Events.LastOrDefault(entry =>
            entry.Event.Kind is TimelineEventKind.WorkStarted or TimelineEventKind.WorkStopped
            && entry.Moment > moment
        );
        if (after is not null)
        {
            return TimelineOutcome.Of(
                Verdict.Unproven,
                FindingReason.NotCredible,
                $"Signed off at {signOff.At.Text}, before the work ended ({after.Event.At.Text}).",
                ["/signOff"],
                "Sign the job off again, after the work."
            );
        }

        var reading = TimelineReading.Of(frame);
        var signed = $"Signed off by {signOff.By} at {signOff.At.Text}";
        return PersonStanding.Lacking(reading, signOff.By, signOff.At, asked) is { } lacking
            ? TimelineOutcome.Of(
                lacking.Verdict,
                lacking.Reason,
                $"{signed}, {lacking.Text}.",
                ["/signOff"],
                lacking.Act
            )
            : Told.Met($"{signed}.", ["/signOff"]) with
            {
                Notices = PersonStanding.Notices(reading, signOff.By, asked),
            };
    }

    private static CheckOutcome FollowedUp(JobFrame frame) =>
        frame.Record.FollowUp switch
        {
            { Result: Condition.Sound } sound => Told.Met(
                $"Checked again after first use by {sound.By} at {sound.At.Text}: sound.",
                ["/followUp"]
            ),
            { } faulty => TimelineOutcome.Of(
                Verdict.NotMet,
                FindingReason.Faulty,
                $"Checked again after first use by {faulty.By} at {faulty.At.Text}: faulty{(faulty.Note is { } note ? $" ({note})" : string.Empty)}.",
                ["/followUp"],
                "Take the unit back in and put it right."
            ),
            _ => TimelineOutcome.Of(
                Verdict.Unproven,
                frame.State == RecordState.Open ? FindingReason.InProgress : FindingReason.StepMissing,
                "Not checked again after first use yet.",
                [],
                "Check the units again after first use."
            ),
        };
}
