using ServiceRules.Domain;
using ServiceRules.Domain.Records;

namespace ServiceRules.Rules.Evaluation.Timeline;

/// <summary>What was entered while somebody was surely at work: not in the minute in which their work began or ended.</summary>
internal static class AmidWork
{
    /// <summary>
    /// The work that an entry lies amid, outside any run; null where there is none, and where the end of a work on a job
    /// that is over was not entered.
    /// </summary>
    /// <param name="reading">The timeline.</param>
    /// <param name="entry">The entry.</param>
    /// <param name="other">Only the work of others than this person; null: anybody's.</param>
    public static WorkInterval? Of(TimelineReading reading, OrderedEvent entry, Id<Participant>? other = null)
    {
        if (reading.Running.Contains(entry.Place()))
        {
            return null;
        }

        var work = reading.Works.FirstOrDefault(work =>
            work.Interval.Contains(entry.Place())
            && work.Person != other
            && !entry.Place().IsInTheMinuteOf(work.Start.Place())
            && !(work.Stop is { } stop && entry.Place().IsInTheMinuteOf(stop.Place()))
        );
        return work is { Stop: not null } || reading.IsOpen ? work : null;
    }
}
