using System.Collections.Immutable;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>An entry by which a record gives a machine energy, or gives the machine away.</summary>
/// <param name="Entry">The entry.</param>
/// <param name="Until">When a run that it begins is shown to end; null: it is one moment, or no end is shown.</param>
internal sealed record EnergyGiven(OrderedEvent Entry, Moment? Until)
{
    // How long after a run what was done in it is entered (common practice, no source).
    private static readonly TimeSpan JustAfter = TimeSpan.FromMinutes(10);

    /// <summary>The end of a run just before it that it can be told of, its time being that of the entry; null: none.</summary>
    public OrderedEvent? RunBefore { get; private init; }

    // What the bench log tells of a reel lapped, and where in the own record; null: the timeline tells it.
    private string? Lapped { get; init; }

    private string? Pointer { get; init; }

    /// <summary>What it is, in words.</summary>
    public string What => Lapped ?? EventWords.Done(Entry.Event);

    /// <summary>Evidence where it is this record's own.</summary>
    public ImmutableArray<OrderedEvent> Entries => Lapped is null ? [Entry] : [];

    /// <summary>Pointers of what shows it beside the timeline.</summary>
    public ImmutableArray<string> Beside => Pointer is null ? [] : [Pointer];

    /// <summary>Every such entry of a record.</summary>
    public static IEnumerable<EnergyGiven> In(TimelineReading reading)
    {
        foreach (var start in reading.Energisings)
        {
            yield return new(start, reading.Running.StretchAt(start.Place())?.Until?.Moment);
        }

        // Done on the running reel: it ran then, whether or not the run was entered.
        var done = reading
            .Of(TimelineEventKind.EnergisedTaskPerformed)
            .Select(task => new EnergyGiven(task, null))
            .Concat(LappedIn(reading));
        foreach (var task in OutsideRuns(reading, done))
        {
            yield return task;
        }

        foreach (
            var entry in reading.Of(
                TimelineEventKind.IsolatorOperated,
                TimelineEventKind.SourceAdded,
                TimelineEventKind.HandedBack
            )
        )
        {
            if (
                entry.Event.Kind != TimelineEventKind.IsolatorOperated
                || entry.Event.Position == IsolatorPosition.On
            )
            {
                yield return new(entry, null);
            }
        }
    }

    /// <summary>What is done on the running reel, of that which no run of the record tells already.</summary>
    public static IEnumerable<EnergyGiven> OutsideRuns(
        TimelineReading reading,
        IEnumerable<EnergyGiven> done
    ) =>
        from one in done
        where !reading.Running.Contains(one.Entry.Place())
        select one with
        {
            RunBefore = reading
                .Of(TimelineEventKind.TestEnded, TimelineEventKind.MachineShutDown)
                .LastOrDefault(end =>
                    end.Moment <= one.Entry.Moment
                    && one.Entry.Moment - end.Moment <= JustAfter
                    && IsEndOfRun(reading, end)
                ),
        };

    /// <summary>Whether it falls into hands-on work, or hands go in while the run that it begins goes on.</summary>
    public bool Endangers(HandsKnown hands, TimelineReading owner) =>
        !IsHeldOff(hands, owner)
        && (
            (hands.From <= Entry.Moment && Entry.Moment < hands.Until)
            || IsAtOnceWithStep(hands)
            || (
                Until is { } until
                && Entry.Moment <= hands.From
                && hands.From < until
                && !IsShutDownBetween(hands, owner)
            )
        );

    /// <summary>
    /// Whether hands go in after a start whose end its record does not show, with nothing in either since that follows a stop: it
    /// may run on.
    /// </summary>
    public bool MayRunOn(HandsKnown hands, ImmutableArray<TimelineReading> both) =>
        Until is null
        && Entry.Event.Kind is TimelineEventKind.MachineStarted or TimelineEventKind.TestEnergised
        && Entry.Moment < hands.From
        && !both.Any(reading =>
            reading.Events.Any(sign =>
                Entry.Moment <= sign.Moment
                && sign.Moment <= hands.From
                && (
                    sign.Event.Kind is TimelineEventKind.MachineShutDown or TimelineEventKind.TestEnded
                    || HandsInRun.FollowsAStop(sign.Event)
                )
            )
        );

    /// <summary>
    /// Whether it stands in the very minute in which hands went in, seconds not noted, or at the moment of a step: which came first
    /// nothing tells.
    /// </summary>
    public bool IsInTheMinuteOf(HandsKnown hands) =>
        IsAtOnceWithStep(hands)
        || (
            hands.From != hands.Until
            && Entry.Place().IsInTheMinuteOf(hands.Entries[0].Place() with { Index = Entry.Index })
        );

    // A step takes a while, and is entered when it is done: a run that begins at its moment may have begun amid it.
    private bool IsAtOnceWithStep(HandsKnown hands) =>
        hands.Step is not null
        && hands.From == Entry.Moment
        && Entry.Event.Kind
            is TimelineEventKind.MachineStarted
                or TimelineEventKind.TestEnergised
                or TimelineEventKind.EnergisedTaskPerformed;

    private static IEnumerable<EnergyGiven> LappedIn(TimelineReading reading)
    {
        var units = reading.Frame.Record.Units;
        for (var unit = 0; unit < units.Length; unit++)
        {
            for (var index = 0; index < units[unit].Entries.Length; index++)
            {
                if (
                    units[unit].Entries[index] is Grinding
                    {
                        Kind: GrindingKind.Lapping,
                        At: { } at,
                        By: { } by
                    }
                )
                {
                    yield return ByLog(reading, new(units[unit].Id, BenchAct.ReelLapped, at, by)) with
                    {
                        Pointer = Pointers.Entry(unit, index),
                    };
                }
            }
        }
    }

    /// <summary>A reel that a bench log tells lapped, the timeline silent: it ran then.</summary>
    public static EnergyGiven ByLog(TimelineReading reading, BenchTold told) =>
        new(
            new(
                new()
                {
                    Kind = TimelineEventKind.EnergisedTaskPerformed,
                    At = told.At,
                    Actor = told.By,
                    Task = ServiceTask.Lap,
                },
                reading.Events.Length,
                JudgedOrder.MomentOf(told.At, reading.Frame.Context.Zone)
            ),
            null
        )
        {
            Lapped = HandsAtUnit.Words(told.Act, told.Unit),
        };

    private static bool IsEndOfRun(TimelineReading reading, OrderedEvent end) =>
        reading.Running.Ends.Contains(end.Place()) || reading.Energisings.Contains(end);

    private bool IsShutDownBetween(HandsKnown hands, TimelineReading owner) =>
        owner
            .Of(TimelineEventKind.MachineShutDown)
            .Any(entry => Entry.Moment <= entry.Moment && entry.Moment <= hands.From);

    // What is plugged in behind an isolator that a lock holds off stays off.
    private bool IsHeldOff(HandsKnown hands, TimelineReading owner) =>
        Entry.Event.Kind == TimelineEventKind.SourceAdded
        && Entry.Event.Source is SourceReference.One { Source: var source }
        && owner.Devices.Any(device =>
            device.HoldsOff
            && device.IsOn(source)
            && device.Applied.Moment <= hands.From
            && !(device.Removed?.Moment <= Entry.Moment)
        );
}
