using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>
/// The people affected were told before the first lock, tag or kept plug, and before the first after every handing back.
/// </summary>
internal static class AffectedToldDuty
{
    private const string Act = "Tell the people who use the machine before you isolate it.";

    public static CheckOutcome Judge(DutyFrame duty)
    {
        if (AffectedPeople.NoneToTell(duty) is { } none)
        {
            return none;
        }

        var first = BeforeTheFirst(duty);
        var again = HungAgain(duty)
            .Select(one => Again(duty, one.Back, one.On))
            .OfType<TimelineFault>()
            .ToList();
        return again.Count == 0 ? first
            : first.Verdict == Verdict.Met ? TimelineOutcome.OfFaults(again)
            : TimelineOutcome.OfBoth(first, TimelineOutcome.OfFaults(again));
    }

    // Handed back, the machine is its users' again: whoever takes it out of use once more tells them anew.
    private static IEnumerable<(OrderedEvent Back, OrderedEvent On)> HungAgain(DutyFrame duty)
    {
        OrderedEvent? back = null;
        foreach (var entry in duty.Reading.Events)
        {
            if (entry.Event.Kind == TimelineEventKind.HandedBack)
            {
                back = entry;
            }
            else if (back is not null && DevicesOn.IsControl(entry.Event.Kind))
            {
                yield return (back, entry);
                back = null;
            }
        }
    }

    private static TimelineFault? Again(DutyFrame duty, OrderedEvent back, OrderedEvent on)
    {
        var what = EventWords.Done(TimelineEventKind.AffectedNotifiedBefore);
        var until =
            $" between {EventWords.Done(back.Event.Kind)} at {duty.Words.Time(back)} and {EventWords.Done(on.Event.Kind)} again at {duty.Words.Time(on)}";
        var told = NoticesGiven.Best(
            duty,
            NoticesGiven
                .Of(duty, TimelineEventKind.AffectedNotifiedBefore)
                .Where(entry => entry.Moment >= back.Moment && entry.Moment <= on.Moment)
        );
        return told.IsEmpty
            ? new(
                Verdict.NotMet,
                FindingReason.StepMissing,
                $"The record does not show {what}{until}.",
                [back, on],
                "Tell the people who use the machine anew before it is isolated again."
            )
            : NoticesGiven.LeftOut(duty, what, told, until, Act);
    }

    private static CheckOutcome BeforeTheFirst(DutyFrame duty)
    {
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
