using System.Collections.Immutable;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Rules.Evaluation.Timeline;

/// <summary>Ends of test runs of which the record does not show that they began.</summary>
internal static class TestEnds
{
    /// <summary>
    /// Each end with no start of the machine since the last such end, or with hands gone in since that run was stopped. The
    /// same end entered twice is none, nor is one entered after the shutdown that ended the run.
    /// </summary>
    public static IEnumerable<OrderedEvent> WithoutStart(ImmutableArray<OrderedEvent> events)
    {
        var isStarted = false;
        var isStopped = false;
        var isEndAlone = false;
        foreach (var entry in events)
        {
            switch (entry.Event.Kind)
            {
                case TimelineEventKind.TestEnergised or TimelineEventKind.MachineStarted:
                    (isStarted, isStopped) = (true, false);
                    break;
                case TimelineEventKind.MachineShutDown:
                    isStopped = true;
                    break;
                case TimelineEventKind.WorkStarted when isStopped:
                    isStarted = false;
                    break;
                case TimelineEventKind.TestEnded:
                    if (!isStarted && !isEndAlone)
                    {
                        yield return entry;
                    }

                    isStarted = false;
                    break;
                default:
                    break;
            }

            isEndAlone =
                entry.Event.Kind == TimelineEventKind.TestEnded
                || (isEndAlone && entry.Event.Kind == TimelineEventKind.MachineShutDown);
        }
    }
}
