using ServiceRules.Application.SafeWork;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Duties;
using ServiceRules.Rules.Model;

namespace ServiceRules.Reporting.Reports.SafeWork;

/// <summary>Findings that are about hands in danger.</summary>
internal static class HandsFinding
{
    /// <summary>Of a duty by which somebody is at a live machine, or holds nothing that keeps it off.</summary>
    public static bool IsOfHands(SafeWorkFinding one) => IsOfHands(one.Rule.Check);

    public static bool IsOfHands(Check check) =>
        check is Check.Protection
        || (
            check is Check.EnergyControl { Of: var duty }
            && DutyTable.Of(duty).Danger is HandsDanger.MachineLive or HandsDanger.NothingHeld
        );

    /// <summary>It leaves open, without saying for how long, whether hands were protected.</summary>
    public static bool LeavesOpen(SafeWorkFinding one) =>
        one.Rule.Check is Check.Protection
            ? one.Finding.Reason is not (FindingReason.NotCredible or FindingReason.InProgress)
            : IsOfHands(one) && one.Finding is { Verdict: Verdict.NotMet, Reason: FindingReason.Unprotected };
}
