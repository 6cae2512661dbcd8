using System.Collections.Immutable;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Checks;
using ServiceRules.Rules.Evaluation.Timeline;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>
/// A look round after the last work, before the first lock or tag comes off after it, and before the machine is started
/// or handed back: at tools and parts, and at people; by somebody authorised, for it is they who release the machine.
/// </summary>
internal static class ClearBeforeRelease
{
    private const string OutOfUse = "Take the machine out of use until it is done and seen to.";

    /// <summary>Tools and parts clear, machine intact.</summary>
    public static CheckOutcome AreaInspected(DutyFrame duty) => Judge(duty, TimelineEventKind.AreaInspected);

    /// <summary>People seen to be clear.</summary>
    public static CheckOutcome PeopleClear(DutyFrame duty) =>
        Judge(duty, TimelineEventKind.PeopleClearChecked);

    private static CheckOutcome Judge(DutyFrame duty, TimelineEventKind kind)
    {
        var reading = duty.Reading;
        if (reading.IsOpen && reading.Works.IsEmpty)
        {
            return TimelineOutcome.OfFaults([Fault(duty, EventWords.Done(kind), null, null, null)]);
        }

        var end = reading.EndOfWork();
        var after = end ?? (reading.Works.IsEmpty ? null : reading.Works[^1].Start);
        var limit = reading.Events.FirstOrDefault(entry =>
            IsLimit(entry.Event.Kind)
            && (after is null || entry.Place() > after.Place())
            && !IsOffTheBoxAlone(reading, entry)
        );
        var found = reading
            .Of(kind)
            .Where(entry => after is null || entry.Place() > after.Place())
            .OrderBy(entry =>
                Standing(duty, entry)?.Verdict switch
                {
                    null => 0,
                    Verdict.Unproven => 1,
                    _ => 2,
                }
            )
            .ThenBy(entry => reading.Weakened.Contains(entry.Pointer()))
            .ToImmutableArray();
        var timely = found.Where(entry => limit is null || entry.Place() < limit.Place()).ToImmutableArray();
        // Whoever saw somebody there last saw it last.
        var inTime =
            timely.MaxBy(entry => entry.Place()) is { } last && SaidOtherwise.By(last.Event)
                ? last
                : timely.FirstOrDefault();
        if (
            inTime is not null
            && end is not null
            && Standing(duty, inTime) is { } standing
            && !SaidOtherwise.By(inTime.Event)
        )
        {
            return TimelineOutcome.OfFaults([ByOther(duty, inTime, standing, limit)]);
        }

        return inTime is not null && end is not null
            ? TimelineOutcome.Met(
                reading,
                $"The record shows {EventWords.Done(kind)} {duty.Words.AtBy(inTime)}, after the work ended and before controls came off.",
                [inTime]
            )
            : TimelineOutcome.OfFaults([
                Fault(duty, EventWords.Done(kind), end, inTime ?? found.FirstOrDefault(), limit),
            ]);
    }

    private static PersonStanding? Standing(DutyFrame duty, OrderedEvent look) =>
        PersonStanding.Lacking(duty.Reading, look.Event.Actor, look.Event.At, PersonAsked.Authorised);

    // Until the controls come off somebody authorised can still look.
    private static TimelineFault ByOther(
        DutyFrame duty,
        OrderedEvent look,
        PersonStanding standing,
        OrderedEvent? limit
    )
    {
        const string act = "Have somebody authorised look, before the machine is released.";
        var told =
            $"The record shows {EventWords.Done(look.Event.Kind)} {duty.Words.AtBy(look)}, {standing.Text}, and by nobody else.";
        return duty.Reading.IsOpen && limit is null
            ? TimelineFault.NotYet(EventWords.Done(look.Event.Kind), act, [look], by: null) with
            {
                Text = told,
            }
            : new(standing.Verdict, standing.Reason, told, [look], limit is null ? act : OutOfUse);
    }

    private static TimelineFault Fault(
        DutyFrame duty,
        string what,
        OrderedEvent? end,
        OrderedEvent? found,
        OrderedEvent? limit
    )
    {
        var words = duty.Words;
        var isLate = found is not null && limit is not null && found.Place() > limit.Place();
        var released = limit is null
            ? string.Empty
            : $"{EventWords.Done(limit.Event.Kind)} at {words.Time(limit)}";
        ImmutableArray<OrderedEvent> entries = [.. new[] { end, found, limit }.OfType<OrderedEvent>()];
        return (found, limit) switch
        {
            (not null, not null) when isLate => new(
                Verdict.NotMet,
                FindingReason.WrongOrder,
                $"The record shows {what} {words.OnlyAt(found, limit)} it shows {released}.",
                entries,
                OutOfUse
            ),
            (null, not null) => new(
                Verdict.NotMet,
                FindingReason.StepMissing,
                $"The record does not show {what} between the work and {released}.",
                entries,
                OutOfUse
            ),
            _ when duty.Reading.IsOpen => TimelineFault.NotYet(
                $"{what}, after the work and before the first lock or tag comes off",
                "Do it after the work, before the first lock or tag comes off.",
                entries,
                by: null
            ),
            (null, _) => new(
                Verdict.NotMet,
                FindingReason.StepMissing,
                $"The record does not show {what} after the work.",
                entries,
                "Do it, and enter it as what it is: done later."
            ),
            _ => new(
                Verdict.Unproven,
                FindingReason.StepMissing,
                $"The record shows {what} at {words.Time(found)}, but not when hands-on work ended.",
                entries,
                "Enter when hands-on work started and stopped, as a late entry."
            ),
        };
    }

    // Members take their own locks off the box and go: what holds the isolators is still on.
    private static bool IsOffTheBoxAlone(TimelineReading reading, OrderedEvent entry) =>
        entry.Event.Kind is TimelineEventKind.LockRemoved or TimelineEventKind.TagRemoved
        && reading.Devices.Any(device => device.IsOnGroupBox && device.Removed?.Index == entry.Index)
        && !reading.Devices.Any(device => !device.IsOnGroupBox && device.Removed?.Index == entry.Index)
        && reading.Devices.Any(device =>
            !device.IsOnGroupBox
            && device.HoldsOff
            && device.Applied.Place() < entry.Place()
            && !(device.Removed?.Place() < entry.Place())
        );

    private static bool IsLimit(TimelineEventKind kind) =>
        kind
            is TimelineEventKind.LockRemoved
                or TimelineEventKind.TagRemoved
                or TimelineEventKind.MachineStarted
                or TimelineEventKind.HandedBack;
}
