using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>The people affected were told before the first lock, tag or kept plug.</summary>
internal static class AffectedToldDuty
{
    private const string Act = "Tell the people who use the machine before you isolate it.";

    public static CheckOutcome Judge(DutyFrame duty)
    {
        if (AffectedPeople.NoneToTell(duty) is { } none)
        {
            return none;
        }

        var what = EventWords.Done(TimelineEventKind.AffectedNotifiedBefore);
        var told = NoticesGiven.Of(duty, TimelineEventKind.AffectedNotifiedBefore);
        var instead = NoticesGiven.Instead(duty, TimelineEventKind.AffectedNotifiedBefore);
        var first = DevicesOn.First(duty);
        var inTime = NoticesGiven.Best(
            duty,
            told.Where(entry => first is null || entry.Moment <= first.Moment)
        );
        var until = first is null
            ? string.Empty
            : $" before {EventWords.Done(first.Event.Kind)} at {duty.Words.Time(first)}";
        if (!inTime.IsEmpty && NoticesGiven.LeftOut(duty, what, inTime, until, Act) is { } leftOut)
        {
            return first is null
                ? AffectedPeople.NotYet(
                    $"{what} to {TimelineWords.List(NoticesGiven.Missed(duty, inTime).Select(person => person.Text))}, before the first lock or tag",
                    Act
                )
                : TimelineOutcome.OfFaults([leftOut]);
        }

        if (!inTime.IsEmpty)
        {
            var before = first is null
                ? ". No control has been put on."
                : $", before {EventWords.Done(first.Event.Kind)} at {duty.Words.Time(first)}.";
            return TimelineOutcome
                .Met(
                    duty.Reading,
                    $"The record shows {what} {TimelineWords.List(inTime.Select(duty.Words.AtBy))}{before}",
                    inTime
                )
                .WithRemark(duty, inTime);
        }

        if (first is null)
        {
            return AffectedPeople.NotYet($"{what}{instead}, before the first lock or tag", Act);
        }

        var late = told.FirstOrDefault();
        var began = $"{EventWords.Done(first.Event.Kind)} at {duty.Words.Time(first)}";
        return late is null
            ? TimelineOutcome.Of(
                Verdict.NotMet,
                FindingReason.StepMissing,
                $"The record does not show {what}{instead} before {began}.",
                [first.Pointer()],
                "Tell them now; next time before anything is isolated."
            )
            : TimelineOutcome.Of(
                Verdict.NotMet,
                FindingReason.WrongOrder,
                $"The record shows {what} {duty.Words.OnlyAt(late, first)} {began}.",
                new[] { first, late }.Evidence(),
                Act
            );
    }
}
