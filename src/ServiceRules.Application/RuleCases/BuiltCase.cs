using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Formats.Cases;
using ServiceRules.Rules.Model;

namespace ServiceRules.Application.RuleCases;

/// <summary>A case ready to be judged, any number of times.</summary>
/// <param name="Promise">What it promises.</param>
/// <param name="Record">The record.</param>
/// <param name="Context">The context.</param>
/// <param name="Subject">Whose verdict is promised.</param>
internal sealed record BuiltCase(
    RuleCase Promise,
    ServiceRecord Record,
    AssessmentContext Context,
    Subject Subject
)
{
    /// <summary>The subject that a case of a rule speaks of when it names none.</summary>
    public static Subject SubjectOf(RuleScope scope, ServiceRecord record) =>
        scope switch
        {
            RuleScope.Job => new Subject.Job(),
            RuleScope.Set => new Subject.Set(),
            RuleScope.Programme => new Subject.Programme(),
            _ => new Subject.Unit(record.Units[0].Id),
        };

    /// <summary>What the promised rule says of the subject; null when it does not apply.</summary>
    public Finding? In(Assessment assessment) =>
        assessment.Findings.FirstOrDefault(one => one.Rule == Promise.Rule && one.Subject == Subject);

    /// <summary>Whether a finding, or none, is what the case promises.</summary>
    public CaseOutcome Outcome(Finding? finding) =>
        VerdictOf(finding) != Promise.Expect ? CaseOutcome.OtherVerdict
        : Promise.Effect is { } effect && effect != EffectOf(finding) ? CaseOutcome.OtherEffect
        : CaseOutcome.AsExpected;

    /// <summary>The verdict of a finding; a rule that says nothing does not apply.</summary>
    public static Verdict VerdictOf(Finding? finding) => finding?.Verdict ?? Verdict.NotApplicable;

    /// <summary>The effect of a finding; a rule that says nothing does nothing.</summary>
    public static Effect EffectOf(Finding? finding) => finding?.Effect ?? Effect.None;
}
