using System.Collections.Immutable;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>Hands of somebody at a unit by the time of the bench log, in the midst of another's work and in none of their own.</summary>
/// <param name="Person">Whose hands.</param>
/// <param name="Hands">The entry that says so.</param>
/// <param name="Other">The work of another that it falls in.</param>
internal sealed record HandsBeside(Id<Participant> Person, HandsAtUnit Hands, WorkInterval Other)
{
    /// <summary>Every such entry; of entries of one person in one work that of the first.</summary>
    public static ImmutableArray<HandsBeside> Of(DutyFrame duty) =>
        [
            .. (
                from hands in duty.Reading.HandsByTheLog
                where !hands.IsDuringWork(duty.Reading)
                from person in new[] { hands.Entry.By }.OfType<Id<Participant>>()
                from other in duty.Reading.Works
                where
                    other.Person != person
                    && other.Start.Moment <= hands.Moment
                    && (other.Stop is not { } stop || hands.Moment <= stop.Moment)
                select new HandsBeside(person, hands, other)
            ).DistinctBy(beside => (beside.Person, beside.Other)),
        ];
}
