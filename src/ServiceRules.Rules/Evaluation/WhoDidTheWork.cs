using System.Collections.Immutable;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Rules.Evaluation;

/// <summary>Everybody with a hand in a job: nobody of them lets it out, or asks for another setting of it.</summary>
public static class WhoDidTheWork
{
    /// <summary>Who performs or assists, started work, or made an entry at a bench.</summary>
    public static ImmutableHashSet<Id<Participant>> In(ServiceRecord record)
    {
        ArgumentNullException.ThrowIfNull(record);
        return
        [
            .. record
                .People.Where(person => person.Role is JobRole.Performs or JobRole.Assists)
                .Select(person => person.Id),
            .. record
                .Timeline.Where(entry =>
                    entry.Kind is TimelineEventKind.WorkStarted or TimelineEventKind.ResumedWork
                )
                .Select(entry => entry.Actor),
            .. record
                .Units.SelectMany(unit => unit.Entries)
                .Select(entry => entry.By)
                .OfType<Id<Participant>>(),
        ];
    }
}
