using System.Collections.Immutable;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>
/// The make-safe steps between two runs of the machine, until the first work in it. Each step may be made again: asked is
/// that those relied on stand in order, and these are, from the end: the last verification of each source; its last
/// release; the first lock or tag on it that is not off again; the latest isolation and going through before what they must
/// precede. Shut down it is before the first isolation of all.
/// </summary>
internal sealed class MakeSafeStretch
{
    private readonly DutyFrame duty;
    private readonly ImmutableArray<OrderedEvent> entries;

    private MakeSafeStretch(DutyFrame duty, ImmutableArray<OrderedEvent> entries, WorkInterval? work)
    {
        this.duty = duty;
        this.entries = entries;
        Work = work;
    }

    /// <summary>The work it leads up to, or null.</summary>
    public WorkInterval? Work { get; }

    /// <summary>Its make-safe steps.</summary>
    public ImmutableArray<OrderedEvent> Entries => entries;

    /// <summary>Every make-safe step of a job.</summary>
    public static ImmutableArray<OrderedEvent> Steps(DutyFrame duty) =>
        [.. duty.Reading.Events.Where(entry => IsStep(entry.Event))];

    /// <summary>Every stretch that leads up to work; on a job that goes on also the last one.</summary>
    public static IEnumerable<MakeSafeStretch> Of(DutyFrame duty)
    {
        var reading = duty.Reading;
        ImmutableArray<TimelinePlace> bounds = [TimelinePlace.Beginning, .. reading.Energisings.Places()];
        for (var index = 0; index < bounds.Length; index++)
        {
            var isLast = index + 1 == bounds.Length;
            var cycle = new TimelineInterval(bounds[index], isLast ? null : bounds[index + 1]);
            var work = reading.Works.FirstOrDefault(one => cycle.Contains(one.Start.Place()));
            if (work is null && !(isLast && reading.IsOpen))
            {
                continue;
            }

            yield return new(
                duty,
                [
                    .. reading.Events.Where(entry =>
                        cycle.Contains(entry.Place())
                        && IsStep(entry.Event)
                        && (work is null || entry.Place() < work.Start.Place())
                    ),
                ],
                work
            );
        }
    }

    /// <summary>Steps that stand the wrong way round: the one that must come first, and the one that stands before it.</summary>
    public IEnumerable<(OrderedEvent First, OrderedEvent Then, EnergySource? Source)> Inversions()
    {
        var chains = duty
            .Sources.Where(source => Work is null || source.IsThereAt(Work.Start.Place()))
            .Select(source => Chain.Of(duty.Reading, source.Source, entries, StillOn(source.Source)))
            .ToImmutableArray();
        foreach (var chain in chains)
        {
            if (chain is { Released: { } released, Verified: { } verified } && Is(released, verified))
            {
                yield return (released, verified, chain.Source);
            }
        }

        var release = chains.Select(chain => chain.Released).OfType<OrderedEvent>().MinBy(Place);
        var relied = new List<OrderedEvent>();
        foreach (var chain in chains)
        {
            var on = chain.On;
            var until = Earlier(IsUnderAnEarlierLock(chain, release) ? null : release, chain.Verified);
            var (off, offFault) = Latest(chain.Off, on ?? until);
            if (on is not null && until is not null && Is(on, until))
            {
                yield return (on, until, chain.Source);
            }

            if (offFault is var (offFirst, offThen))
            {
                yield return (offFirst, offThen, chain.Source);
            }

            relied.AddRange(new[] { off ?? on ?? chain.Released ?? chain.Verified }.OfType<OrderedEvent>());
        }

        // A machine that ran while it was isolated did so whatever was switched off again later.
        var down = OfKind(TimelineEventKind.MachineShutDown).FirstOrDefault();
        var firstOff = entries.FirstOrDefault(entry =>
            entry.Event.Kind is TimelineEventKind.IsolatorOperated or TimelineEventKind.PlugRemoved
        );
        var first = Earlier(firstOff, relied.MinBy(Place));
        if (down is not null && first is not null && Is(down, first))
        {
            yield return (down, first, null);
        }

        var (_, reviewFault) = Latest(OfKind(TimelineEventKind.EnergyReviewed), down ?? relied.MinBy(Place));
        if (reviewFault is var (reviewFirst, reviewThen))
        {
            yield return (reviewFirst, reviewThen, null);
        }
    }

    // One hung too early and taken off again is not the one relied on; one that is left on is.
    private OrderedEvent? StillOn(EnergySource source) =>
        duty
            .Reading.Devices.FirstOrDefault(device =>
                device.IsOn(source.Id)
                && entries.Contains(device.Applied)
                && (device.Removed is not { } off || (Work is { } work && off.Place() > work.Start.Place()))
            )
            ?.Applied;

    // Let off under a lock that was hung again since: with no run between, what was let off stays so.
    private bool IsUnderAnEarlierLock(Chain chain, OrderedEvent? release)
    {
        if (release is null || chain.On is not { } on || !Is(on, release))
        {
            return false;
        }

        var source = SourceReading.Of(duty.Reading, chain.Source);
        return source.Held.Contains(release.Place()) && source.Isolated.Contains(release.Place());
    }

    private static TimelinePlace Place(OrderedEvent entry) => entry.Place();

    private static OrderedEvent? Earlier(OrderedEvent? one, OrderedEvent? other) =>
        new[] { one, other }.OfType<OrderedEvent>().MinBy(Place);

    private static bool Is(OrderedEvent first, OrderedEvent then) => first.Moment > then.Moment;

    /// <summary>The latest of some steps that stands no later than another; where none does, the first of them is at fault.</summary>
    private static (OrderedEvent? Entry, (OrderedEvent First, OrderedEvent Then)? Fault) Latest(
        ImmutableArray<OrderedEvent> steps,
        OrderedEvent? until
    )
    {
        var good = steps.LastOrDefault(step => until is null || !Is(step, until));
        return (good, good is null && !steps.IsEmpty ? (steps[0], until!) : null);
    }

    private static bool IsStep(TimelineEvent entry) =>
        entry.Kind
            is TimelineEventKind.EnergyReviewed
                or TimelineEventKind.MachineShutDown
                or TimelineEventKind.PlugRemoved
                or TimelineEventKind.LockApplied
                or TimelineEventKind.TagApplied
                or TimelineEventKind.StoredEnergyReleased
                or TimelineEventKind.IsolationVerified
        || (entry.Kind == TimelineEventKind.IsolatorOperated && entry.Position != IsolatorPosition.On);

    private ImmutableArray<OrderedEvent> OfKind(TimelineEventKind kind) =>
        [.. entries.Where(entry => entry.Event.Kind == kind)];

    private sealed record Chain(
        EnergySource Source,
        ImmutableArray<OrderedEvent> Off,
        OrderedEvent? On,
        OrderedEvent? Released,
        OrderedEvent? Verified
    )
    {
        public static Chain Of(
            TimelineReading reading,
            EnergySource source,
            ImmutableArray<OrderedEvent> entries,
            OrderedEvent? stillOn
        )
        {
            return new(
                source,
                Steps(TimelineEventKind.IsolatorOperated, TimelineEventKind.PlugRemoved),
                stillOn
                    ?? Steps(TimelineEventKind.LockApplied, TimelineEventKind.TagApplied).FirstOrDefault(),
                Steps(TimelineEventKind.StoredEnergyReleased).LastOrDefault(),
                Steps(TimelineEventKind.IsolationVerified).LastOrDefault()
            );

            ImmutableArray<OrderedEvent> Steps(params ReadOnlySpan<TimelineEventKind> kinds)
            {
                var found = ImmutableArray.CreateBuilder<OrderedEvent>();
                foreach (var entry in entries)
                {
                    if (
                        kinds.Contains(entry.Event.Kind)
                        && SourceReading.IsSwitchedBy(reading, source, entry.Event)
                    )
                    {
                        found.Add(entry);
                    }
                }

                return found.ToImmutable();
            }
        }
    }
}
