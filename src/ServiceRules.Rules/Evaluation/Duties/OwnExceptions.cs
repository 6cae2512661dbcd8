using System.Collections.Immutable;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>Who in a record stands behind an exception from safe work: those let nothing out on that job.</summary>
public static class OwnExceptions
{
    /// <summary>
    /// The people who claimed or decided an exemption, took off a device under the exception for an absent owner, put
    /// other measures in the place of isolation, or did a task on the live machine.
    /// </summary>
    /// <param name="record">The record.</param>
    public static ImmutableHashSet<Id<Participant>> Of(ServiceRecord record)
    {
        ArgumentNullException.ThrowIfNull(record);
        return
        [
            .. record.Timeline.Where(IsOwn).Select(entry => entry.Actor),
            .. record.Timeline.Select(entry => entry.Claim?.DecidedBy).OfType<Id<Participant>>(),
        ];
    }

    private static bool IsOwn(TimelineEvent entry) =>
        entry.Kind switch
        {
            TimelineEventKind.ExemptionClaimed
            or TimelineEventKind.AlternativeMeasuresRecorded
            or TimelineEventKind.EnergisedTaskPerformed => true,
            TimelineEventKind.LockRemoved or TimelineEventKind.TagRemoved => entry.Exception is not null,
            _ => false,
        };
}
