using System.Collections.Immutable;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>
/// Steps that take hands at the unit, held against the protection of whoever made them at that moment; and reels wedged
/// before they can have stood still.
/// </summary>
internal static class StepsByHand
{
    public static IEnumerable<TimelineFault> Faults(
        TimelineReading reading,
        ProtectionReading protection,
        TimelineWords words
    ) =>
        StepByHand
            .OutsideWork(reading)
            .Select(step =>
                step.IsBeforeWork
                    ? BeforeWork(step, reading, protection, words)
                    : AtAnyTime(step, reading, protection, words)
            )
            .OfType<TimelineFault>()
            .Concat(WedgedTooSoon(reading, words));

    // A wedge leads up to proof, and locks on the box to its end: asked is only that nobody else can switch anything on.
    private static TimelineFault? BeforeWork(
        StepByHand step,
        TimelineReading reading,
        ProtectionReading protection,
        TimelineWords words
    )
    {
        var sources = protection.SourcesAt(step.Place).Where(source => source.HasIsolator).ToList();
        var on = sources.Where(source => !step.IsIn(source.Isolated)).ToList();
        var free = sources
            .Where(source => source.Source.Lockable && !on.Contains(source))
            .Where(source =>
                !step.IsIn(protection.ControlOf(step.Person, source.Source))
                && !reading.Devices.Any(device => IsHungBy(device, source.Source, step))
            )
            .ToList();
        // With no lock at all anybody may switch it on; with one that is still to come on another isolator less is plain.
        var hasNone = free.Count == sources.Count(source => source.Source.Lockable);
        var denied = on.Where(source => step.IsIn(source.IsolationDenied)).ToList();
        return on.Count > 0
                ? Fault(
                    // Words that deny an entry show no breach by themselves.
                    denied.Count == on.Count
                        ? Verdict.Unproven
                        : Verdict.NotMet,
                    step.Entry,
                    $"{Named(on)} isolated",
                    words,
                    []
                )
            : free.Count > 0
                ? Fault(
                    hasNone ? Verdict.NotMet : Verdict.Unproven,
                    step.Entry,
                    $"{step.Person}'s own lock on {Named(free)}",
                    words,
                    []
                )
            : null;
    }

    private static TimelineFault? AtAnyTime(
        StepByHand step,
        TimelineReading reading,
        ProtectionReading protection,
        TimelineWords words
    )
    {
        var person = step.Person;
        if (step.IsIn(protection.ProtectedFor(person)))
        {
            return null;
        }

        var lacks = ProtectionLack.At(step.Place, person, reading, protection, words).ToList();
        if (lacks.Count == 0)
        {
            return null;
        }

        var sources = protection.SourcesAt(step.Place).Where(source => source.HasIsolator).ToList();
        var isLive = sources.Exists(source => IsSwitchedOn(reading, source.Source, step.Entry));
        var isBetweenTheBlades = step.Entry.Event.Kind == TimelineEventKind.ReelWedged;
        var isWithoutOwn = sources.Exists(source => !step.IsIn(protection.ControlOf(person, source.Source)));
        return Fault(
            isLive || (isBetweenTheBlades && isWithoutOwn) ? Verdict.NotMet : Verdict.Unproven,
            step.Entry,
            string.Join("; ", lacks.Select(lack => lack.What)),
            words,
            [.. lacks.SelectMany(lack => lack.Entries)]
        );
    }

    private static IEnumerable<TimelineFault> WedgedTooSoon(TimelineReading reading, TimelineWords words)
    {
        var stops = reading.Of(TimelineEventKind.MachineShutDown, TimelineEventKind.TestEnded);
        var runDown = TimeSpan.FromSeconds(reading.Frame.Procedure?.RunDownSeconds ?? 0);
        foreach (var wedge in reading.Of(TimelineEventKind.ReelWedged))
        {
            var start = reading.Energisings.LastOrDefault(ran => ran.Place() < wedge.Place());
            // Of several entries of one stop, the machine ran down from the first.
            var stop = stops.FirstOrDefault(stop =>
                stop.Place() < wedge.Place()
                && (start is null || stop.Place() > start.Place() || stop.Index == start.Index)
            );
            if (stop is null || reading.Running.Contains(wedge.Place()))
            {
                continue;
            }

            var rests = reading.Of(TimelineEventKind.SeenAtRest);
            var isSeen = rests.Any(rest => rest.Place() > stop.Place() && rest.Moment <= wedge.Moment);
            var isSeenLater = rests.Any(rest => rest.Moment > wedge.Moment);
            if (wedge.Moment - stop.Moment < runDown && !AreToTheMinute(stop, wedge))
            {
                yield return TooSoon(
                    $"The record shows {EventWords.Done(wedge.Event)} {words.AtBy(wedge)}, so soon after {EventWords.Done(stop.Event.Kind)} at {words.Time(stop)} that by procedure {reading.Frame.Procedure!.Id} the reel may still have turned.",
                    stop,
                    wedge
                );
            }
            else if (!isSeen && isSeenLater)
            {
                yield return TooSoon(
                    $"The record shows {EventWords.Done(wedge.Event)} {words.AtBy(wedge)}, after {EventWords.Done(stop.Event.Kind)} at {words.Time(stop)} and before anybody saw it at rest.",
                    stop,
                    wedge
                );
            }
        }
    }

    // Where seconds were not noted, the two may stand a minute further apart than they say.
    private static bool AreToTheMinute(OrderedEvent stop, OrderedEvent wedge) =>
        stop.Moment.Utc.Ticks % TimeSpan.TicksPerMinute == 0
        && wedge.Moment.Utc.Ticks % TimeSpan.TicksPerMinute == 0;

    private static TimelineFault TooSoon(string text, OrderedEvent stop, OrderedEvent wedge) =>
        new(
            Verdict.Unproven,
            FindingReason.WrongOrder,
            text,
            [stop, wedge],
            "Nobody puts a hand or a wedge between blades that may still turn: see the reel at rest first."
        );

    private static TimelineFault Fault(
        Verdict verdict,
        OrderedEvent entry,
        string lacking,
        TimelineWords words,
        ImmutableArray<OrderedEvent> beside
    ) =>
        new(
            verdict,
            verdict == Verdict.NotMet ? FindingReason.Unprotected : FindingReason.StepMissing,
            $"The record shows {EventWords.Done(entry.Event)} {words.AtBy(entry)}{PutRightByHand.TakesHands(entry.Event)}. By then it does not show {lacking}.",
            [.. beside.Prepend(entry).Distinct()],
            $"Hands at the unit, those of {entry.Event.Actor} too, only while every source is off and held by an own lock or, where none fits, by an own tag or the plug in their keeping."
        );

    // A lock that came off may leave it switched off.
    private static bool IsSwitchedOn(TimelineReading reading, EnergySource source, OrderedEvent entry)
    {
        var off = SourceReading
            .Isolations(reading, source)
            .LastOrDefault(switched => switched.Place() <= entry.Place());
        return off is null
            || SourceReading
                .PutOn(reading, source)
                .Concat(reading.Energisings)
                .Any(on => on.Place() > off.Place() && on.Moment < entry.Moment);
    }

    private static bool IsHungBy(DeviceInterval device, EnergySource source, StepByHand step) =>
        device.HoldsOff
        && device.Person == step.Person
        && device.IsOn(source.Id)
        && step.IsIn(IntervalSet.Of([device.Interval]));

    private static string Named(List<SourceReading> sources) =>
        TimelineWords.Named(sources.Select(source => source.Source));
}
