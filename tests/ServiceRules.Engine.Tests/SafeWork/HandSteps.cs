using System.Collections.Immutable;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Engine.Tests.SafeWork;

/// <summary>Wedges, props, guards put back, safety defects found and put right, by people in and outside the job, at any time of it.</summary>
internal static class HandSteps
{
    private static readonly ImmutableArray<TimelineEventKind> Kinds =
    [
        TimelineEventKind.ReelWedged,
        TimelineEventKind.UnitSupported,
        TimelineEventKind.GuardsRefitted,
        TimelineEventKind.SafetyDefectFound,
        TimelineEventKind.SafetyDefectClosed,
        TimelineEventKind.SafetyDefectClosed,
    ];

    private static readonly ImmutableArray<TimelineEventKind> Turns =
    [
        TimelineEventKind.LockApplied,
        TimelineEventKind.IsolationVerified,
        TimelineEventKind.WorkStarted,
        TimelineEventKind.WorkStopped,
    ];

    public static ServiceRecord Of(ServiceRecord record, Random random)
    {
        for (int more = random.Next(1, 4); more > 0 && !record.Timeline.IsEmpty; more--)
        {
            record = record with
            {
                Timeline = record.Timeline.Add(
                    new()
                    {
                        Kind = Kinds[random.Next(Kinds.Length)],
                        At = Moments.After(Near(record.Timeline, random), random),
                        Actor = Moments.Somebody(record, random),
                    }
                ),
            };
        }

        return record;
    }

    /// <summary>Anywhere, and more often where protection begins and ends.</summary>
    private static TimelineEvent Near(ImmutableArray<TimelineEvent> timeline, Random random)
    {
        var kind = Turns[random.Next(Turns.Length)];
        ImmutableArray<TimelineEvent> turns = [.. timeline.Where(e => e.Kind == kind)];
        return random.Next(3) == 0 || turns.IsEmpty
            ? timeline[random.Next(timeline.Length)]
            : turns[random.Next(turns.Length)];
    }
}
