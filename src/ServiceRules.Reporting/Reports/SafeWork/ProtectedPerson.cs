using System.Collections.Immutable;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Reporting.Reports.SafeWork;

/// <summary>One person with hands in: when, and when protected.</summary>
/// <param name="Id">Who, by the record's own identifier.</param>
/// <param name="Work">When hands were in.</param>
/// <param name="Protected">When protected from every source; null: no written procedure says from what.</param>
/// <param name="Sources">The same source by source.</param>
internal sealed record ProtectedPerson(
    Id<Participant> Id,
    IntervalSet Work,
    IntervalSet? Protected,
    ImmutableArray<ProtectedSource> Sources
)
{
    /// <summary>Hands in without protection; null where it cannot be told.</summary>
    public IntervalSet? Unprotected => Protected is null ? null : Work.Without(Protected);
}
