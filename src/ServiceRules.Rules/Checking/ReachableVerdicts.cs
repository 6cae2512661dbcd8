using System.Collections.Immutable;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Duties;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Checking;

/// <summary>
/// The verdicts that a kind of check can give where it applies: a rule must have a case for each. Most kinds can give
/// all three; the exceptions are part of what the kind means.
/// </summary>
public static class ReachableVerdicts
{
    private static readonly ImmutableArray<Verdict> All = [Verdict.Met, Verdict.NotMet, Verdict.Unproven];

    private static readonly ImmutableArray<Verdict> NeverNotMet = [Verdict.Met, Verdict.Unproven];

    private static readonly ImmutableArray<Verdict> NeverMet = [Verdict.NotMet, Verdict.Unproven];

    /// <summary>The verdicts, in the order met, not met, unproven.</summary>
    public static ImmutableArray<Verdict> Of(Check check) =>
        check switch
        {
            // Doubt about a record never makes a breach; it only takes proof away.
            Check.Credibility => NeverNotMet,
            // A job that is not signed off is in progress, not in breach.
            Check.RecordPart { Part: RequiredPart.SignOff, By: not PersonAsked.Authorised } => NeverNotMet,
            // No wave measured is no proof that there is none; a wave that was measured is there.
            Check.WavePitch => NeverMet,
            Check.EnergyControl duty => DutyTable.Of(duty.Of).Verdicts,
            _ => All,
        };
}
