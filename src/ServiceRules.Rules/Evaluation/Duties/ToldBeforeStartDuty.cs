using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>Between the last lock or tag coming off and the machine being started, the people affected were told.</summary>
internal static class ToldBeforeStartDuty
{
    private const string Act = "Tell the people who use the machine before it is started.";

    public static CheckOutcome Judge(DutyFrame duty)
    {
        if (AffectedPeople.NoneToTell(duty) is { } none)
        {
            return none;
        }

        var reading = duty.Reading;
        var what = EventWords.Done(TimelineEventKind.RemovalNotified);
        var starts = reading
            .Of(TimelineEventKind.MachineStarted)
            .Where(start => reading.Devices.Any(device => device.Applied.Place() < start.Place()))
            .ToList();
        if (starts.Count == 0)
        {
            return reading.IsOpen
                ? AffectedPeople.NotYet(
                    $"{what}, after the last lock or tag and before the machine is started",
                    Act
                )
                : TimelineOutcome.NotApplicable(
                    "The record shows no start of the machine after a lock or tag."
                );
        }

        var restsOn = new List<OrderedEvent>();
        var faults = new List<TimelineFault>();
        foreach (var start in starts)
        {
            Judge(duty, what, start, restsOn, faults);
        }

        return faults.Count > 0
            ? TimelineOutcome.OfFaults(faults)
            : TimelineOutcome
                .Met(
                    reading,
                    $"The record shows {what}, before the machine was started at {duty.Words.Time(starts[^1])}.",
                    [.. restsOn.Distinct()]
                )
                .WithRemark(duty, restsOn.Distinct());
    }

    private static void Judge(
        DutyFrame duty,
        string what,
        OrderedEvent start,
        List<OrderedEvent> restsOn,
        List<TimelineFault> faults
    )
    {
        var words = duty.Words;
        var on = duty.Reading.Devices.FirstOrDefault(device =>
            device.Removed is not null && device.Interval.Contains(start.Place())
        );
        var off = DevicesOn.Removals(duty).LastOrDefault(entry => entry.Place() < start.Place());
        if (on is not null)
        {
            faults.Add(
                new(
                    Verdict.NotMet,
                    FindingReason.WrongOrder,
                    $"The record shows the machine started at {words.Time(start)}, before {EventWords.Done(on.Removed!.Event.Kind)} at {words.Time(on.Removed)}: nobody can have been told in between.",
                    [start, on.Removed],
                    Act
                )
            );
            return;
        }

        if (off is null)
        {
            return;
        }

        var told = NoticesGiven.Best(
            duty,
            NoticesGiven
                .Of(duty, TimelineEventKind.RemovalNotified)
                .Where(entry => entry.Moment >= off.Moment && entry.Moment <= start.Moment)
        );
        if (!told.IsEmpty)
        {
            if (
                NoticesGiven.LeftOut(
                    duty,
                    what,
                    told,
                    $" before the machine was started at {words.Time(start)}",
                    Act
                ) is
                { } leftOut
            )
            {
                faults.Add(leftOut);
            }

            restsOn.AddRange(told);
            return;
        }

        faults.Add(
            new(
                Verdict.NotMet,
                FindingReason.StepMissing,
                $"The record does not show {what}{NoticesGiven.Instead(duty, TimelineEventKind.RemovalNotified)} between {EventWords.Done(off.Event.Kind)} at {words.Time(off)} and the start of the machine at {words.Time(start)}.",
                [off, start],
                Act
            )
        );
    }
}
