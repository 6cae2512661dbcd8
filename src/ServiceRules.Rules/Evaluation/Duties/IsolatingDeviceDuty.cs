using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>
/// What was switched off keeps energy out. A stop button, a kill switch, a key switch, a selector or a seat switch only asks the
/// machine to stop; it does for nothing unless a real isolating device of the same source was operated too, before work. What
/// is named as a control, and not written down as the isolating device, is not shown to keep energy out; nor is what is neither
/// written down for the source nor known as an isolating device by its name.
/// </summary>
internal static class IsolatingDeviceDuty
{
    public static CheckOutcome Judge(DutyFrame duty)
    {
        var operated = duty
            .Reading.Of(TimelineEventKind.IsolatorOperated)
            .Where(entry => entry.Event.Position != IsolatorPosition.On)
            .ToList();
        if (operated.Count == 0)
        {
            return TimelineOutcome.NotApplicable("The record shows no isolator operated.");
        }

        var faults =
            from entry in operated
            where !IsIsolating(duty, entry) && !IsMadeGood(duty, operated, entry)
            select Fault(duty, entry);
        var found = faults.ToList();
        if (found.Count > 0)
        {
            return TimelineOutcome.OfFaults(found);
        }

        var met = TimelineOutcome.Met(
            duty.Reading,
            Shown(duty, operated),
            [.. operated.Where(entry => IsIsolating(duty, entry))]
        );
        return met with
        {
            Notices = [.. met.Notices, .. operated.Select(entry => Differs(duty, entry)).OfType<string>()],
        };
    }

    private static TimelineFault Fault(DutyFrame duty, OrderedEvent entry)
    {
        var told =
            $"The record shows {Named(duty, entry)} operated {duty.Words.AtBy(entry)} as the isolator of {Source(duty, entry)}";
        return IsControl(duty, entry)
            ? new(
                Verdict.NotMet,
                FindingReason.ProcedureNotFollowed,
                $"{told}: a control device, which keeps no energy out.",
                [entry],
                "Open the isolating device of the source: a battery disconnect, a pulled and kept plug, a valve."
            )
            : new(
                Verdict.Unproven,
                FindingReason.ProcedureNotFollowed,
                MayBeControl(duty, entry)
                    ? $"{told}: by its words a control, which keeps no energy out, and {Written(duty, entry)}."
                    : $"{told}: by its name no known isolating device, and {Written(duty, entry)}.",
                [entry],
                WhatWouldDo(duty, entry)
            );
    }

    private static string WhatWouldDo(DutyFrame duty, OrderedEvent entry) =>
        SourceOf(duty, entry)?.Isolator is { } written
            ? $"Open `{written}`, or another disconnect, breaker, valve or plug that cuts the same energy off; where this one does keep the energy out, have it written into the procedure."
            : "Open a disconnect, breaker, valve or plug that cuts the energy off; where this one does keep the energy out, have it written into the procedure.";

    private static string Written(DutyFrame duty, OrderedEvent entry) =>
        SourceOf(duty, entry)?.Isolator is { } written
            ? $"not `{written}`, which is written down for it"
            : "nothing is written down for it";

    // An entry that names no device shows none: what the procedure has for it is said as that.
    private static string Shown(DutyFrame duty, List<OrderedEvent> operated)
    {
        var unnamed = operated.Where(entry => entry.Event.Isolator is null).ToList();
        if (unnamed.Count == 0)
        {
            return "The record shows isolating devices operated, not control devices alone.";
        }

        var times = TimelineWords.List(unnamed.Select(duty.Words.Time).Distinct(StringComparer.Ordinal));
        var written = unnamed
            .Select(entry => Kind(duty, entry))
            .OfType<string>()
            .Distinct(StringComparer.Ordinal)
            .Select(kind => $"`{kind}`")
            .ToList();
        return $"The record shows isolators turned off and names no control device. Which device was operated at {times} it does not name"
            + (
                written.Count == 0
                    ? "."
                    : $"; {TimelineWords.List(written)} is written down for it, which is no control device."
            );
    }

    // Another isolator than the one written down may well do; that somebody looks at it is all that is asked.
    private static string? Differs(DutyFrame duty, OrderedEvent entry) =>
        entry.Event is { Isolator: { } operated, Source: SourceReference.One { Source: var id } }
        && duty.Sources.FirstOrDefault(source => source.Source.Id == id)
            is { IsDescribed: true, Source: var source }
        && source.Isolator is { } written
        && !Names.AreAlike(operated, written)
            ? $"The isolator of {TimelineWords.Named(source)} is written down as `{written}`, and `{operated}` was operated {duty.Words.AtBy(entry)}: see that it cuts the same energy off."
            : null;

    private static bool IsMadeGood(DutyFrame duty, List<OrderedEvent> operated, OrderedEvent entry)
    {
        var work = duty.Reading.Works.FirstOrDefault(one => one.Start.Place() > entry.Place());
        var undone = Undone(duty, entry);
        return operated.Exists(other =>
            Speaks(other, entry)
            && IsIsolating(duty, other)
            && !(other.Place() < undone)
            && (work is null || other.Place() < work.Start.Place())
        );
    }

    // What was off before the machine ran, or before it was turned on again, keeps out nothing now.
    private static TimelinePlace? Undone(DutyFrame duty, OrderedEvent entry)
    {
        var reading = duty.Reading;
        var ons =
            from turned in reading.Of(TimelineEventKind.IsolatorOperated)
            where turned.Event.Position == IsolatorPosition.On && Speaks(turned, entry)
            select turned;
        return reading
            .Energisings.Concat(ons)
            .Where(one => one.Place() < entry.Place())
            .MaxBy(one => one.Place())
            ?.Place();
    }

    private static bool Speaks(OrderedEvent other, OrderedEvent entry) =>
        entry.Event.Source is SourceReference.One { Source: var source }
            ? other.Event.SpeaksOf(source)
            : other.Event.Source == entry.Event.Source;

    private static bool IsControl(DutyFrame duty, OrderedEvent entry) =>
        Kind(duty, entry) is { } kind && ControlDevices.IsControlDevice(kind);

    private static bool MayBeControl(DutyFrame duty, OrderedEvent entry) =>
        entry.Event.Isolator is { } operated
        && ControlDevices.MayBeControlDevice(operated)
        && !IsWrittenDown(duty, entry, operated);

    private static bool IsIsolating(DutyFrame duty, OrderedEvent entry) =>
        !IsControl(duty, entry)
        && !MayBeControl(duty, entry)
        && (
            entry.Event.Isolator is not { } operated
            || IsolatingDevices.IsOne(operated)
            || IsWrittenDown(duty, entry, operated)
        );

    // The site has written down that this one keeps energy out, whatever it is called.
    private static bool IsWrittenDown(DutyFrame duty, OrderedEvent entry, string operated) =>
        duty
            .Sources.Select(source => source.Source)
            .Concat(duty.Machine?.Sources ?? [])
            .Any(source =>
                entry.Event.SpeaksOf(source.Id)
                && source.Isolator is { } written
                && Names.AreAlike(operated, written)
            );

    private static string? Kind(DutyFrame duty, OrderedEvent entry) =>
        entry.Event.Isolator ?? SourceOf(duty, entry)?.Isolator;

    private static EnergySource? SourceOf(DutyFrame duty, OrderedEvent entry) =>
        duty.Sources.FirstOrDefault(source => entry.Event.SpeaksOf(source.Source.Id))?.Source;

    private static string Named(DutyFrame duty, OrderedEvent entry) => $"`{Kind(duty, entry)}`";

    private static string Source(DutyFrame duty, OrderedEvent entry) =>
        SourceNames.Of(duty, entry.Event.Source);
}
