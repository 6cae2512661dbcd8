using System.Collections.Immutable;
using ServiceRules.Application.Assessing;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Duties;
using ServiceRules.Rules.Model;

namespace ServiceRules.Application.SafeWork;

/// <summary>What an assessment found about safe work, apart from everything it found at the bench.</summary>
public sealed class SafeWorkFindings
{
    private SafeWorkFindings(Assessed job, ImmutableArray<SafeWorkFinding> all)
    {
        All = all;
        HeldClaims = [.. all.Select(one => ClaimHeld(job.Record, one)).OfType<HeldClaim>()];
        Standing = StandingOf(job.Assessment, [.. all.Where(one => one.Weighs)], Exemption is not null);
    }

    /// <summary>
    /// Every finding about safe work, what does not apply included: what stops first, and of that hands in without
    /// protection; then in the order of the rules.
    /// </summary>
    public ImmutableArray<SafeWorkFinding> All { get; }

    /// <summary>What the record shows as a whole.</summary>
    public SafeWorkStanding Standing { get; }

    /// <summary>What is not shown or not proven, gravest first.</summary>
    public IEnumerable<SafeWorkFinding> Open => All.Where(one => one.IsOpen);

    /// <summary>Claims of exemptions that the record bears out.</summary>
    public ImmutableArray<HeldClaim> HeldClaims { get; }

    /// <summary>The claim that takes lockout off the job; null: none is made, or none holds.</summary>
    public HeldClaim? Exemption => HeldClaims.FirstOrDefault(claim => claim.LiftsLockout);

    /// <summary>Reads them out of an assessment.</summary>
    public static SafeWorkFindings Of(Assessed job)
    {
        ArgumentNullException.ThrowIfNull(job);
        var rules = job
            .Book.Packs.SelectMany(pack => pack.Rules)
            .Select((rule, order) => (Rule: rule, Order: order))
            .GroupBy(one => one.Rule.Id.Text, StringComparer.Ordinal)
            .ToDictionary(same => same.Key, same => same.Last(), StringComparer.Ordinal);
        return new(
            job,
            [
                .. job
                    .Assessment.Findings.Where(finding => rules.ContainsKey(finding.Rule))
                    .Select(finding =>
                        KindOf(rules[finding.Rule].Rule) is { } kind
                            ? new SafeWorkFinding(rules[finding.Rule].Rule, finding, kind)
                            : null
                    )
                    .OfType<SafeWorkFinding>()
                    .OrderByDescending(one => one.Finding.Effect)
                    .ThenBy(one => one.Finding.Verdict == Verdict.NotMet ? 0 : 1)
                    .ThenByDescending(one => one.Finding.Severity)
                    .ThenBy(one => DangerOf(one.Rule))
                    .ThenBy(one => rules[one.Finding.Rule].Order),
            ]
        );
    }

    /// <summary>What a rule is about, if it is about safe work; null: something at the bench.</summary>
    public static SafeWorkKind? KindOf(Rule rule)
    {
        ArgumentNullException.ThrowIfNull(rule);
        return rule switch
        {
            { Scope: RuleScope.Programme } => SafeWorkKind.Programme,
            { Scope: not RuleScope.Job } => null,
            { Check: Check.Recency { Of: RecencyOf.Training or RecencyOf.ProcedureInspection } } =>
                SafeWorkKind.Programme,
            { Check: Check.Credibility } => SafeWorkKind.Credibility,
            {
                Check: Check.RequiredEvent or Check.OrderOfEvents or Check.Protection or Check.EnergyControl
            } => SafeWorkKind.Duty,
            {
                Check: Check.RecordPart
                {
                    Part: RequiredPart.SafetyDefectsClosed or RequiredPart.BlockageByTool
                }
            } => SafeWorkKind.Duty,
            _ => null,
        };
    }

    // Who is protected from what comes before what follows from it.
    private static int DangerOf(Rule rule) =>
        rule.Check switch
        {
            Check.Protection => -1,
            Check.EnergyControl { Of: var duty } => (int)DutyTable.Of(duty).Danger,
            _ => (int)HandsDanger.None,
        };

    private static HeldClaim? ClaimHeld(ServiceRecord record, SafeWorkFinding one)
    {
        ExemptionKind? kind = one.Rule.Check switch
        {
            Check.EnergyControl { Of: EnergyDuty.MinorServicingClaim } => ExemptionKind.MinorServicing,
            Check.EnergyControl { Of: EnergyDuty.CordAndPlugClaim } => ExemptionKind.CordAndPlug,
            Check.EnergyControl { Of: EnergyDuty.UndocumentedException } =>
                ExemptionKind.UndocumentedProcedure,
            _ => null,
        };
        return
            one.Finding.Verdict == Verdict.Met
            && record.Timeline.LastOrDefault(made => made.Claim?.Kind == kind)
                is { Actor: var by, Claim: { Kind: var claimed, DecidedBy: var decided } }
            ? new(one, claimed, by, decided)
            : null;
    }

    private static SafeWorkStanding StandingOf(
        Assessment assessment,
        ImmutableArray<SafeWorkFinding> weighing,
        bool isExempt
    ) =>
        weighing.Any(one => one.Finding.Verdict == Verdict.NotMet) ? SafeWorkStanding.NotShown
        : assessment.State == RecordState.Open ? SafeWorkStanding.InProgress
        : weighing.Any(one => one.Finding.Verdict == Verdict.Unproven) ? SafeWorkStanding.NotProven
        : isExempt ? SafeWorkStanding.Exempt
        : weighing.Any(one => one.Finding.Verdict == Verdict.Met) ? SafeWorkStanding.Shown
        : SafeWorkStanding.NotJudged;
}
