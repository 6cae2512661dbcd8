using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>
/// What a lock or tag hangs on, where its entry says so: the isolator that is written down for its source, or the one that was
/// operated for it before. The device itself named there (a padlock, a hasp) says nothing of the isolator. On a control, or on the
/// isolator of another source, it holds nothing off; by any other name that is not proven.
/// </summary>
internal static class IsolatorUnderLock
{
    private const string Act =
        "Hang the lock on the isolator that is written down for the source and verify again; where the other one does keep the energy out, have it written into the procedure.";

    // Common practice, no source: what people hang, and what they hang it with.
    private static readonly string[] OfTheDevice =
    [
        "lock",
        "padlock",
        "hasp",
        "tag",
        "shackle",
        "clamp",
        "multilock",
        "lockbox",
    ];

    /// <summary>The locks and tags that are entered on something else.</summary>
    public static IEnumerable<TimelineFault> Faults(DutyFrame duty) =>
        from entry in duty.Reading.Of(TimelineEventKind.LockApplied, TimelineEventKind.TagApplied)
        where entry.Event.Source is SourceReference.One or SourceReference.All
        let isolator = entry.Event.Isolator
        where isolator is not null && !IsOfItsSource(duty, entry, isolator) && !NamesTheDevice(isolator)
        select Fault(duty, entry, isolator);

    private static TimelineFault Fault(DutyFrame duty, OrderedEvent entry, string isolator)
    {
        var what = entry.Event.Kind == TimelineEventKind.TagApplied ? "tag" : "lock";
        var told =
            $"The record shows {what} {entry.Event.Lock} put on `{isolator}` for {SourceNames.Of(duty, entry.Event.Source)} {duty.Words.AtBy(entry)}";
        var other = duty.Sources.FirstOrDefault(source =>
            source.Source.Isolator is { } written && Names.AreAlike(isolator, written)
        );
        var (verdict, why) =
            ControlDevices.IsControlDevice(isolator)
                ? (Verdict.NotMet, "a control device, which keeps no energy out")
            : other is not null
                ? (Verdict.NotMet, $"which is the isolator of {TimelineWords.Named(other.Source)}")
            : (
                Verdict.Unproven,
                "which is neither written down for it nor the isolator that was turned off for it"
            );
        return new(
            verdict,
            FindingReason.ProcedureNotFollowed,
            $"{told}, {why}: that it holds the source off is not shown.",
            [entry],
            Act
        );
    }

    private static bool IsOfItsSource(DutyFrame duty, OrderedEvent entry, string isolator) =>
        duty.Sources.Select(source => source.Source)
            .Concat(duty.Machine?.Sources ?? [])
            .Any(source =>
                entry.Event.SpeaksOf(source.Id)
                && source.Isolator is { } written
                && Names.AreAlike(isolator, written)
            )
        || (
            !ControlDevices.IsControlDevice(isolator)
            && duty.Reading.Of(TimelineEventKind.IsolatorOperated, TimelineEventKind.PlugRemoved)
                .Any(off =>
                    off.Place() < entry.Place()
                    && off.Event.Position != IsolatorPosition.On
                    && off.Event.Isolator is { } operated
                    && Names.AreAlike(isolator, operated)
                    && (
                        entry.Event.Source is SourceReference.One { Source: var source }
                            ? off.Event.SpeaksOf(source)
                            : off.Event.Source == entry.Event.Source
                    )
                )
        );

    private static bool NamesTheDevice(string isolator) =>
        !ControlDevices.IsControlDevice(isolator)
        && !ControlDevices.MayBeControlDevice(isolator)
        && isolator
            .Split(
                [' ', '_', '-', '/'],
                StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries
            )
            .Any(word => OfTheDevice.Contains(word, StringComparer.OrdinalIgnoreCase))
        && !IsolatingDevices.IsOne(isolator);
}
