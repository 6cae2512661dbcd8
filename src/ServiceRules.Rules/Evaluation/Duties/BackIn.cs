using System.Collections.Immutable;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>Somebody who had hands in on an open job, has them out, and may not put them in again as the machine now stands.</summary>
/// <param name="Person">Who.</param>
/// <param name="Lacks">What is no longer shown, in the order in which it is done.</param>
public sealed record BackIn(Id<Participant> Person, ImmutableArray<string> Lacks)
{
    /// <summary>Everybody whom that holds of; empty on a finished job, and once the machine is handed back.</summary>
    public static ImmutableArray<BackIn> Of(JobFrame job)
    {
        ArgumentNullException.ThrowIfNull(job);
        return OpenJob.Of(job) is not { } duty
            ? []
            :
            [
                .. duty
                    .Reading.Works.GroupBy(work => work.Person)
                    .Where(own => own.All(work => work.Stop is not null))
                    .Select(own => new BackIn(own.Key, [.. ProtectionNow.Lacking(duty, own.Key)]))
                    .Where(one => !one.Lacks.IsEmpty),
            ];
    }
}
