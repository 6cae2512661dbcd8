using System.Collections.Immutable;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Rules.Evaluation.Timeline;

/// <summary>
/// Whoever resumes work has hands in from then on, as by a start of work. Two say nothing new: somebody at work already; and the
/// owner of a device that somebody else took off, who is only back, for the entry was made to tell that.
/// </summary>
internal static class ResumedWork
{
    /// <summary>The entries, with work that is taken up again as a start of work.</summary>
    public static ImmutableArray<OrderedEvent> AsBegun(ImmutableArray<OrderedEvent> events)
    {
        if (!events.Any(entry => entry.Event.Kind == TimelineEventKind.ResumedWork))
        {
            return events;
        }

        var judged = events.ToBuilder();
        var atWork = new HashSet<Id<Participant>>();
        for (var at = 0; at < events.Length; at++)
        {
            var entry = events[at].Event;
            switch (entry.Kind)
            {
                case TimelineEventKind.ResumedWork
                    when !atWork.Contains(entry.Actor) && !IsOnlyBack(events, at, atWork.Count > 0):
                    judged[at] = events[at] with
                    {
                        Event = entry with { Kind = TimelineEventKind.WorkStarted },
                    };
                    _ = atWork.Add(entry.Actor);
                    break;
                case TimelineEventKind.WorkStarted:
                    _ = atWork.Add(entry.Actor);
                    break;
                case TimelineEventKind.WorkStopped:
                    _ = atWork.Remove(entry.Actor);
                    break;
                default:
                    break;
            }
        }

        return judged.DrainToImmutable();
    }

    /// <summary>
    /// An owner whose device was taken off meanwhile, and whose own start of work follows; or who comes back when all work of the job
    /// is over and no test runs.
    /// </summary>
    private static bool IsOnlyBack(ImmutableArray<OrderedEvent> events, int at, bool isAnybodyAtWork)
    {
        var who = events[at].Event.Actor;
        var after = events[(at + 1)..];
        return IsOfOwner(events, at, who)
            && after.FirstOrDefault(entry => entry.Event.Actor == who && IsOfWork(entry)) switch
            {
                { Event.Kind: TimelineEventKind.WorkStarted } => true,
                { } => false,
                null => !isAnybodyAtWork && !after.Any(IsOfWork) && !IsTestRunning(events[..at]),
            };
    }

    private static bool IsOfWork(OrderedEvent entry) =>
        entry.Event.Kind is TimelineEventKind.WorkStarted or TimelineEventKind.WorkStopped;

    // Of a device that another record hung nothing here says whose it is.
    private static bool IsOfOwner(ImmutableArray<OrderedEvent> events, int at, Id<Participant> who) =>
        Enumerable
            .Range(0, at)
            .Any(off =>
                events[off].Event
                    is {
                        Kind: TimelineEventKind.LockRemoved or TimelineEventKind.TagRemoved,
                        Lock: { } device
                    } taken
                && taken.Actor != who
                && (
                    events[..off]
                        .LastOrDefault(entry =>
                            entry.Event.Lock == device
                            && entry.Event.Kind
                                is TimelineEventKind.LockApplied
                                    or TimelineEventKind.TagApplied
                        )
                        is { } hung
                        ? hung.Event.Actor == who
                        : taken.Exception is not null
                )
            );

    private static bool IsTestRunning(ImmutableArray<OrderedEvent> before) =>
        before.LastOrDefault(entry =>
            entry.Event.Kind
                is TimelineEventKind.TestEnergised
                    or TimelineEventKind.TestEnded
                    or TimelineEventKind.MachineShutDown
        )
            is { Event.Kind: TimelineEventKind.TestEnergised };
}
