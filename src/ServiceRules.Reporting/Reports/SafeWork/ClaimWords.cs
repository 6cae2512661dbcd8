using ServiceRules.Application.SafeWork;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Reporting.Reports.SafeWork;

/// <summary>How a claim of an exemption is told: always as a claim, and always with who decided it.</summary>
internal static class ClaimWords
{
    /// <summary>Ends a sentence such as "exempt from lockout by ...".</summary>
    public static string By(HeldClaim claim) =>
        claim.DecidedBy is { } person
            ? $"a claim decided by {person.Text}"
            : $"a claim decided by {claim.ClaimedBy.Text}, who entered it";

    public static string Short(HeldClaim claim) => $"{Of(claim.Kind)}, {By(claim)}";

    public static string Whole(SafeWorkView view, HeldClaim claim)
    {
        var events = view.Evidence(claim.Told.Finding.Evidence);
        var lifts = claim.LiftsLockout
            ? "lockout was not asked of this job"
            : "no written procedure was asked of this machine";
        return $"{Of(claim.Kind)}, entered by {claim.ClaimedBy.Text} ({events}), "
            + (
                claim.DecidedBy is { } person
                    ? $"decided by {person.Text}"
                    : "with nobody else named who decided it"
            )
            + $": {lifts}. It rests on what was claimed; whether it is so, a competent person decides.";
    }

    private static string Of(ExemptionKind kind) =>
        kind switch
        {
            ExemptionKind.MinorServicing => "minor servicing in use",
            ExemptionKind.CordAndPlug => "cord and plug",
            ExemptionKind.UndocumentedProcedure => "no written procedure needed",
            _ => "not covered",
        };
}
