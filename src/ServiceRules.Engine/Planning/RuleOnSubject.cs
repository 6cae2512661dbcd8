using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;

namespace ServiceRules.Engine.Planning;

/// <summary>A rule that applies, and the unit it applies to; no unit for the set, the job and the programme.</summary>
/// <param name="Rule">The rule.</param>
/// <param name="Unit">The unit.</param>
/// <param name="IsAsked">Whether the tasks ask for it; else it applies only because of what was read.</param>
internal sealed record RuleOnSubject(Rule Rule, UnitFrame? Unit, bool IsAsked)
{
    public Subject Subject =>
        Rule.Scope switch
        {
            RuleScope.Job => new Subject.Job(),
            RuleScope.Set => new Subject.Set(),
            RuleScope.Programme => new Subject.Programme(),
            _ when Unit is { } unit => new Subject.Unit(unit.Work.Id),
            _ => throw new EngineFaultException($"rule `{Rule.Id}` is judged on a unit, and none is given"),
        };
}
