using System.Collections.Immutable;
using ServiceRules.Domain;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Timeline;

/// <summary>
/// Starts of the machine that cannot have been: with a lock on an isolator, or with an isolator off that nobody turned on
/// again. For a test some isolators may well stay locked, but not the one without which nothing runs.
/// </summary>
internal static class StartsHeldOff
{
    /// <summary>Without these no machine runs at all. Names as registers and entries use them.</summary>
    private static readonly ImmutableHashSet<string> Drives =
    [
        "engine_start",
        "battery_drive",
        "mains_cord",
        "mains_supply",
    ];

    /// <summary>Whether nothing runs without a source.</summary>
    public static bool IsDrive(Id<EnergySource> source) => Drives.Contains(source.Text);

    /// <summary>One doubt for each lock or isolator that a start contradicts.</summary>
    public static IEnumerable<EntryDoubt> In(TimelineReading reading) =>
        reading.Energisings.SelectMany(start => Locked(reading, start).Concat(SwitchedOff(reading, start)));

    private static IEnumerable<EntryDoubt> Locked(TimelineReading reading, OrderedEvent start) =>
        from device in reading.Devices
        where
            !device.IsTag
            && device.HoldsOff
            && !device.IsOnGroupBox
            && device.Interval.Contains(start.Place())
            && device.Applied.Place() < start.Place()
            && (start.Event.Kind == TimelineEventKind.MachineStarted || IsOnDrive(device))
        select Contradicts(
            start,
            device.Applied,
            $"{EventWords.Done(start.Event.Kind)} {reading.Words.AtBy(start)} is entered while {device.Device}, put on "
                + $"{On(device.Applied)}{reading.Words.AtBy(device.Applied)}, was not off: one of the two was not so"
        );

    private static IEnumerable<EntryDoubt> SwitchedOff(TimelineReading reading, OrderedEvent start) =>
        from source in reading.Protection?.Sources ?? []
        where
            source.Source is { Isolator: not null, Lockable: true }
            && IsDrive(source.Source.Id)
            && !source.Held.Contains(start.Place())
        from off in source.Isolated.Intervals
        where off.Until == start.Place()
        let entry = reading.Events.FirstOrDefault(entry => entry.Place() == off.From)
        where entry is { Event.Kind: TimelineEventKind.IsolatorOperated }
        select Contradicts(
            start,
            entry,
            $"{EventWords.Done(start.Event.Kind)} {reading.Words.AtBy(start)} is entered while {TimelineWords.Named(source.Source)}, "
                + $"switched off {reading.Words.AtBy(entry)}, was not switched on again: one of the two was not so"
        );

    private static bool IsOnDrive(DeviceInterval device) =>
        device.Applied.Event.Source switch
        {
            SourceReference.All => true,
            SourceReference.One { Source: var source } => IsDrive(source),
            _ => false,
        };

    private static string On(OrderedEvent applied) =>
        applied.Event.Source is SourceReference.One { Source: var source } ? $"{source} " : string.Empty;

    private static EntryDoubt Contradicts(OrderedEvent start, OrderedEvent held, string why) =>
        new(CredibilityOf.StartedHeldOff, start.Pointer(), why, Weakens: true) { Against = held.Pointer() };
}
