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
/// <param name="NotProven">Hands in that entries show as protected and do not prove.</param>
/// <param name="LeftOpen">What leaves open, without saying for how long, whether all of it was protected; null: nothing.</param>
/// <param name="Logged">Hands at a unit by the bench log alone, and not shown as protected.</param>
/// <param name="Steps">Steps that took a hand at a unit outside the work; beside work only those held against that person.</param>
internal sealed record ProtectedPerson(
    Id<Participant> Id,
    IntervalSet Work,
    IntervalSet? Protected,
    ImmutableArray<ProtectedSource> Sources,
    IntervalSet NotProven,
    MarkedFinding? LeftOpen,
    ImmutableArray<LoggedHands> Logged,
    ImmutableArray<HandStep> Steps
)
{
    /// <summary>Hands in without protection; null where it cannot be told.</summary>
    public IntervalSet? Unprotected => Protected is null ? null : Work.Without(Protected);
}
