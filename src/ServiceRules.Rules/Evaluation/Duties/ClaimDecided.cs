using System.Collections.Immutable;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>
/// Whoever decided a claim, held against the register: somebody whom it does not have decided nothing that is shown; somebody
/// whom it does not authorise, or who had hands in on the strength of it, is told.
/// </summary>
internal static class ClaimDecided
{
    /// <summary>A claim said to be decided by somebody whom the register does not have.</summary>
    public static TimelineFault? Fault(DutyFrame duty, ImmutableArray<ClaimMade> claims, string act) =>
        claims
            .Where(made =>
                made.Claim.DecidedBy is { } named && Authorities.Of(duty, named) == Authority.NotKnown
            )
            .Select(made => new TimelineFault(
                Verdict.Unproven,
                FindingReason.NotRegistered,
                $"Minor servicing is claimed, {made.ByClaim}, {Authorities.Against(Authority.NotKnown)}: that somebody who may decided it is not shown.",
                [made.Entry],
                act
            ))
            .FirstOrDefault();

    /// <summary>What is told beside a claim that holds.</summary>
    public static IEnumerable<string> Told(DutyFrame duty, ImmutableArray<ClaimMade> claims) =>
        claims
            .Select(made => made.Claim.DecidedBy ?? made.Entry.Event.Actor)
            .Distinct()
            .SelectMany(person =>
                new[]
                {
                    Authorities.Of(duty, person) is var authority and not Authority.Shown
                        ? $"The claim of minor servicing was decided by {person}, {Authorities.Against(authority)}."
                        : null,
                    duty.Reading.HandsIn.Contains(person)
                        ? $"The claim of minor servicing was decided by {person}, whose own hands it was for."
                        : null,
                }.OfType<string>()
            );
}
