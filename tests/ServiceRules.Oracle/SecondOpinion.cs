using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Rules.Model;

namespace ServiceRules.Oracle;

/// <summary>
/// A deliberately naive evaluator: loops straight over the record, the sheets, the setting orders and the rules, from
/// the written meaning of the checks alone. Where the meaning is silent it says so instead of guessing.
/// </summary>
public static class SecondOpinion
{
    /// <summary>The verdicts possible for a rule on a unit; on the set or the job when there is no unit.</summary>
    public static Possible On(
        Rule rule,
        ServiceRecord record,
        AssessmentContext context,
        RuleBook book,
        UnitWork? unit
    )
    {
        var facts = new Facts(record, context, book);
        if (unit is null)
        {
            return Applies.ToJob(rule.When, record, facts) ? Jobwide(facts, rule) : Possible.NotApplicable;
        }

        if (facts.OrdersOverlap)
        {
            return Possible.Any;
        }

        return Applies.ToUnit(rule, record, unit, facts) ? Unit(facts, rule, unit) : Possible.NotApplicable;
    }

    private static Possible Unit(Facts facts, Rule rule, UnitWork unit) =>
        rule.Check switch
        {
            Check.LimitOnQuantity limit => LimitKinds.Limit(facts, unit, limit, rule.Decision),
            Check.Parallelism parallel => LimitKinds.Parallelism(facts, unit, parallel, rule.Decision),
            Check.Spread { Across: SpreadAcross.Sides } sides => LimitKinds.Sides(
                facts,
                unit,
                sides,
                rule.Decision
            ),
            Check.ReelForm { Of: ReelFormOf.Taper } => LimitKinds.Taper(facts, unit, rule.Decision),
            Check.ReelForm => FormKinds.Barrel(facts, unit, rule.Decision),
            Check.Twist => FormKinds.Twist(facts, unit, rule.Decision),
            Check.StepObtained step => FormKinds.Step(facts, unit, step.Quantity),
            Check.Relation relation => RelationKind.Related(facts, unit, relation, rule.Decision),
            Check.Clip clip => MowingKinds.Clip(facts, unit, clip, rule.Decision),
            Check.WavePitch => MowingKinds.Wave(facts, unit),
            Check.ProceduralLimit procedural => ContactKinds.Procedure(facts, unit, procedural),
            Check.Contact contact => ContactKinds.Contact(facts, unit, contact),
            Check.OrderOfWork order => LogKinds.Ordered(facts, unit, order),
            Check.Freshness fresh => LogKinds.Fresh(facts, unit, fresh),
            Check.Presence presence => LogKinds.Present(facts, unit, presence),
            Check.SoundCondition sound => LogKinds.Sound(facts, unit, sound),
            _ => Possible.Any,
        };

    private static Possible Jobwide(Facts facts, Rule rule) =>
        rule.Check switch
        {
            Check.Spread spread => LimitKinds.AcrossUnits(facts, spread, rule.Decision),
            Check.RequiredEvent step => StepKinds.Required(facts, step),
            Check.Recency recency => JobKinds.Recent(facts, recency.Of),
            Check.Credibility credibility => JobKinds.Credible(facts, credibility.Of),
            Check.RecordPart part => JobKinds.Part(facts, part.Part),
            _ => Possible.Any,
        };
}
