using System.Collections.Frozen;
using System.Runtime.CompilerServices;
using ServiceRules.Domain.Timeline;
using ServiceRules.Rules.Evaluation.Duties;

namespace ServiceRules.Rules.Evaluation.Timeline;

/// <summary>Proofs at which the machine surely ran: what turns when it is tried is not dead.</summary>
internal static class RunThen
{
    // Asked for every source by several duties: read once for a timeline.
    private static readonly ConditionalWeakTable<TimelineReading, FrozenDictionary<int, OrderedEvent>> Read =
    [];

    /// <summary>
    /// The start of the run that a proof falls in; null: none. One at the instant of a start or an end may be before or
    /// after it. A run whose own end is not entered was over when something was done that follows a stop.
    /// </summary>
    public static OrderedEvent? At(TimelineReading reading, OrderedEvent proof) =>
        Read.GetValue(reading, Of).GetValueOrDefault(proof.Index);

    private static FrozenDictionary<int, OrderedEvent> Of(TimelineReading reading)
    {
        var found = new Dictionary<int, OrderedEvent>();
        var proofs = new List<(OrderedEvent Proof, bool IsAfterAStop)>();
        OrderedEvent? start = null;
        var isStopped = false;
        foreach (var entry in reading.Events)
        {
            if (IsStart(entry) || IsEnd(entry))
            {
                Add(found, start, proofs, entry);
                proofs.Clear();
                isStopped = false;
                start = IsStart(entry) ? entry : null;
                continue;
            }

            if (entry.Event.Kind == TimelineEventKind.IsolationVerified)
            {
                proofs.Add((entry, isStopped));
            }

            isStopped |= HandsInRun.FollowsAStop(entry.Event);
        }

        Add(found, start, proofs, null);
        return found.ToFrozenDictionary();
    }

    private static void Add(
        Dictionary<int, OrderedEvent> found,
        OrderedEvent? start,
        List<(OrderedEvent Proof, bool IsAfterAStop)> proofs,
        OrderedEvent? next
    )
    {
        if (start is null)
        {
            return;
        }

        var isEnded = next is not null && IsEnd(next);
        foreach (var (proof, isAfterAStop) in proofs)
        {
            if ((isEnded || !isAfterAStop) && proof.Moment != start.Moment && proof.Moment != next?.Moment)
            {
                found[proof.Index] = start;
            }
        }
    }

    private static bool IsStart(OrderedEvent entry) =>
        entry.Event.Kind is TimelineEventKind.MachineStarted or TimelineEventKind.TestEnergised;

    private static bool IsEnd(OrderedEvent entry) =>
        entry.Event.Kind is TimelineEventKind.MachineShutDown or TimelineEventKind.TestEnded;
}
