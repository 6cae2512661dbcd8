using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Application.SafeWork;

/// <summary>A claim of an exemption that the record bears out: what it claims, who claims it, who decided it.</summary>
/// <param name="Told">The finding that it holds.</param>
/// <param name="Kind">Of what exemption.</param>
/// <param name="ClaimedBy">Who entered it.</param>
/// <param name="DecidedBy">Who is named as having decided it; null: nobody.</param>
public sealed record HeldClaim(
    SafeWorkFinding Told,
    ExemptionKind Kind,
    Id<Participant> ClaimedBy,
    Id<Participant>? DecidedBy
)
{
    /// <summary>It takes lockout off the job, and not the written procedure alone.</summary>
    public bool LiftsLockout => Kind is ExemptionKind.MinorServicing or ExemptionKind.CordAndPlug;
}
