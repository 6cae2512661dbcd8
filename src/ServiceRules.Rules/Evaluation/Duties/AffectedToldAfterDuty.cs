using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>The people affected were told after the last lock or tag came off.</summary>
internal static class AffectedToldAfterDuty
{
    private const string Act = "Tell the people who use the machine that the controls are off.";

    public static CheckOutcome Judge(DutyFrame duty)
    {
        if (AffectedPeople.NoneToTell(duty) is { } none)
        {
            return none;
        }

        var what = EventWords.Done(TimelineEventKind.RemovalNotified);
        var last = DevicesOn.Removals(duty).LastOrDefault();
        if (duty.Reading.Devices.IsEmpty && !duty.Reading.IsOpen)
        {
            return WithoutDevices(duty, what);
        }

        if (last is null || (duty.Reading.IsOpen && StandsAfter(duty, last)))
        {
            return duty.Reading.IsOpen
                ? AffectedPeople.NotYet($"{what}, after the last lock or tag", Act)
                : TimelineOutcome.Of(
                    Verdict.Unproven,
                    FindingReason.StepMissing,
                    "The record does not show the locks and tags coming off, so not that anybody was told after it.",
                    [],
                    "Enter who took them off and when, as a late entry."
                );
        }

        var instead = NoticesGiven.Instead(duty, TimelineEventKind.RemovalNotified);
        var told = NoticesGiven.Best(
            duty,
            NoticesGiven
                .Of(duty, TimelineEventKind.RemovalNotified)
                .Where(entry => entry.Moment >= last.Moment)
        );
        var after = $" after {EventWords.Done(last.Event.Kind)} at {duty.Words.Time(last)}";
        var leftOut = told.IsEmpty ? null : NoticesGiven.LeftOut(duty, what, told, after, Act);
        return (told.IsEmpty || leftOut is not null) switch
        {
            false => TimelineOutcome
                .Met(
                    duty.Reading,
                    $"The record shows {what} {TimelineWords.List(told.Select(duty.Words.AtBy))},{after}.",
                    told
                )
                .WithRemark(duty, told),
            true when duty.Reading.IsOpen => AffectedPeople.NotYet(
                $"{what}{(leftOut is null ? instead : $" to {TimelineWords.List(NoticesGiven.Missed(duty, told).Select(person => person.Text))}")}, after {EventWords.Done(last.Event.Kind)} at {duty.Words.Time(last)}",
                Act
            ),
            _ when leftOut is not null => TimelineOutcome.OfFaults([leftOut]),
            _ => TimelineOutcome.Of(
                Verdict.NotMet,
                FindingReason.StepMissing,
                $"The record does not show {what}{instead} after {EventWords.Done(last.Event.Kind)} at {duty.Words.Time(last)}.",
                [last.Pointer()],
                Act
            ),
        };
    }

    // A plug that was kept has no entry that puts it back: asked is a notice after the work.
    private static CheckOutcome WithoutDevices(DutyFrame duty, string what)
    {
        var end = duty.Reading.EndOfWork();
        var told = NoticesGiven.Best(
            duty,
            NoticesGiven
                .Of(duty, TimelineEventKind.RemovalNotified)
                .Where(entry => end is null || entry.Place() > end.Place())
        );
        if (told.IsEmpty)
        {
            return TimelineOutcome.Of(
                Verdict.NotMet,
                FindingReason.StepMissing,
                $"The record does not show {what}{NoticesGiven.Instead(duty, TimelineEventKind.RemovalNotified)}.",
                [],
                Act
            );
        }

        if (NoticesGiven.LeftOut(duty, what, told, string.Empty, Act) is { } leftOut)
        {
            return TimelineOutcome.OfFaults([leftOut]);
        }

        var shown = $"The record shows {what} {TimelineWords.List(told.Select(duty.Words.AtBy))}";
        return end is null
            ? TimelineOutcome.Of(
                Verdict.Unproven,
                FindingReason.StepMissing,
                $"{shown}, and does not show when the work ended, so not that anybody was told after it.",
                told.Evidence(),
                "Enter when hands-on work stopped, as a late entry."
            )
            : TimelineOutcome.Met(duty.Reading, $"{shown}.", told).WithRemark(duty, told);
    }

    /// <summary>On a job that goes on: something was put on again, or is on still.</summary>
    private static bool StandsAfter(DutyFrame duty, OrderedEvent last) =>
        duty.Reading.Devices.Any(device => device.Removed is null || device.Applied.Place() > last.Place());
}
