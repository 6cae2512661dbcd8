using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;

namespace ServiceRules.Application.SafeWork;

/// <summary>One finding about safe work, with the rule that made it.</summary>
/// <param name="Rule">The rule.</param>
/// <param name="Finding">What came of it.</param>
/// <param name="Kind">What it is about.</param>
public sealed record SafeWorkFinding(Rule Rule, Finding Finding, SafeWorkKind Kind)
{
    /// <summary>Not shown, or not proven.</summary>
    public bool IsOpen => Finding.Verdict is Verdict.NotMet or Verdict.Unproven;

    /// <summary>Not there yet on an open job, and not due before hands go in: it comes after the work.</summary>
    public bool IsToCome =>
        Finding is { Verdict: Verdict.Unproven, Reason: FindingReason.InProgress }
        && StepsBeforeHands.Of(Rule.Check) is null;

    /// <summary>It weighs on what the record shows of the job as a whole.</summary>
    public bool Weighs => Kind == SafeWorkKind.Duty && Finding.Severity != Severity.Advise;
}
