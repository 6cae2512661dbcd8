using ServiceRules.Domain.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>An exemption claimed, and the entry that claims it.</summary>
internal sealed record ClaimMade(OrderedEvent Entry, ExemptionClaim Claim)
{
    /// <summary>Whose word it is: after what is claimed.</summary>
    public string ByClaim =>
        Claim.DecidedBy is { } person
            ? $"by claim, decided by {person}"
            : $"by claim, decided by {Entry.Event.Actor}, who entered it";
}
