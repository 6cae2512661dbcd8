using System.Collections.Immutable;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Engine.Tests.SafeWork;

/// <summary>
/// Somebody goes away right after work began: the lock off, and hung again with or without a word of the isolator, with or without
/// a new proof, now and then with the isolator turned on, the machine started or hands left in meanwhile.
/// </summary>
internal static class Breaks
{
    public static ServiceRecord Of(ServiceRecord record, Random random)
    {
        ImmutableArray<TimelineEvent> starts =
        [
            .. record.Timeline.Where(e => e.Kind == TimelineEventKind.WorkStarted),
        ];
        if (starts.IsEmpty)
        {
            return record;
        }

        var start = starts[random.Next(starts.Length)];
        var locks = record
            .Timeline.Where(e =>
                e.Actor == start.Actor
                && e.At is RecordedTime.Instant on
                && start.At is RecordedTime.Instant began
                && on.Moment < began.Moment
                && e.Kind is TimelineEventKind.LockApplied or TimelineEventKind.TagApplied
            )
            .ToImmutableArray();
        if (locks.IsEmpty)
        {
            return record;
        }

        List<TimelineEvent> told = [];
        int seconds = 4;
        if (random.Next(8) > 0)
        {
            Tell(start with { Kind = TimelineEventKind.WorkStopped }, 1);
        }

        foreach (var on in locks)
        {
            Tell(
                on with
                {
                    Kind =
                        on.Kind == TimelineEventKind.LockApplied
                            ? TimelineEventKind.LockRemoved
                            : TimelineEventKind.TagRemoved,
                    Position = null,
                },
                1
            );
        }

        if (random.Next(5) == 0)
        {
            Tell(
                Step(start, TimelineEventKind.IsolatorOperated, locks[0].Source) with
                {
                    Position = IsolatorPosition.On,
                },
                1
            );
        }
        else if (random.Next(8) == 0)
        {
            Tell(Step(start, TimelineEventKind.MachineStarted, null), 1);
            Tell(Step(start, TimelineEventKind.MachineShutDown, null), 1);
        }

        foreach (var on in locks)
        {
            Tell(on with { Position = random.Next(4) == 0 ? null : IsolatorPosition.Off }, 6);
        }

        if (random.Next(3) == 0)
        {
            Tell(Step(start, TimelineEventKind.StoredEnergyReleased, new SourceReference.All()), 6);
        }

        if (random.Next(5) > 0)
        {
            Tell(Step(start, TimelineEventKind.IsolationVerified, new SourceReference.All()), 11);
        }

        if (random.Next(3) == 0)
        {
            Tell(Step(start, TimelineEventKind.StoredEnergyReleased, new SourceReference.All()), 6);
        }

        if (random.Next(8) > 0)
        {
            Tell(start, 1);
        }

        return record with
        {
            Timeline = record.Timeline.AddRange(told),
        };

        void Tell(TimelineEvent entry, int later)
        {
            seconds += later;
            told.Add(
                entry with
                {
                    At = Moments.After(start.At, seconds),
                    EventId = null,
                    Sequence = null,
                    ReceivedAt = null,
                }
            );
        }
    }

    private static TimelineEvent Step(TimelineEvent start, TimelineEventKind kind, SourceReference? source) =>
        new()
        {
            Kind = kind,
            At = start.At,
            Actor = start.Actor,
            Source = source,
        };
}
