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
        return told switch
        {
            not null => TimelineOutcome
                .Met(
                    duty.Reading,
                    $"The record shows {what} {duty.Words.AtBy(told)}, after {EventWords.Done(last.Event.Kind)} at {duty.Words.Time(last)}.",
                    [told]
                )
                .WithRemark(duty, told),
            null when duty.Reading.IsOpen => AffectedPeople.NotYet(
                $"{what}{instead}, after {EventWords.Done(last.Event.Kind)} at {duty.Words.Time(last)}",
                Act
            ),
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
        return told is null
            ? TimelineOutcome.Of(
                Verdict.NotMet,
                FindingReason.StepMissing,
                $"The record does not show {what}{NoticesGiven.Instead(duty, TimelineEventKind.RemovalNotified)}.",
                [],
                Act
            )
            : TimelineOutcome
                .Met(duty.Reading, $"The record shows {what} {duty.Words.AtBy(told)}.", [told])
                .WithRemark(duty, told);
    }

    /// <summary>On a job that goes on: something was put on again, or is on still.</summary>
    private static bool StandsAfter(DutyFrame duty, OrderedEvent last) =>
        duty.Reading.Devices.Any(device => device.Removed is null || device.Applied.Place() > last.Place());
}
