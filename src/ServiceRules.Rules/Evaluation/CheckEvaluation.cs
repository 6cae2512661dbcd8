using ServiceRules.Rules.Evaluation.Checks;
using ServiceRules.Rules.Evaluation.Duties;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation;

/// <summary>The one table from a check's kind to what judges it.</summary>
public static class CheckEvaluation
{
    /// <summary>Judges a rule's check on one subject. A function of its inputs alone.</summary>
    /// <param name="rule">The rule.</param>
    /// <param name="frame">The job.</param>
    /// <param name="unit">The unit, for a rule judged on each unit; null for rules on the set or the job.</param>
    public static CheckOutcome Evaluate(Rule rule, JobFrame frame, UnitFrame? unit)
    {
        ArgumentNullException.ThrowIfNull(rule);
        ArgumentNullException.ThrowIfNull(frame);
        var outcome =
            Suppression.ByExemption(rule, frame)
            ?? TakenBack.Doubted(Judged(rule, frame, unit), rule, frame, unit, Judged);
        return GaugeNotices.Added(
            ContestedRemedy.Withheld(outcome, rule.Check, frame, unit),
            rule.Check,
            unit
        );
    }

    private static CheckOutcome Judged(Rule rule, JobFrame frame, UnitFrame? unit) =>
        rule.Check switch
        {
            Check.LimitOnQuantity check => LimitOnQuantityCheck.Evaluate(check, rule, frame, unit),
            Check.ProceduralLimit check => ProceduralLimitCheck.Evaluate(check, rule, frame, unit),
            Check.Contact check => ContactCheck.Evaluate(check, rule, frame, unit),
            Check.Spread check => SpreadCheck.Evaluate(check, rule, frame, unit),
            Check.Parallelism check => ParallelismCheck.Evaluate(check, rule, frame, unit),
            Check.ReelForm check => ReelFormCheck.Evaluate(check, rule, frame, unit),
            Check.Twist => TwistCheck.Evaluate(rule, frame, unit),
            Check.Relation check => RelationCheck.Evaluate(check, rule, frame, unit),
            Check.Clip check => ClipCheck.Evaluate(check, rule, frame, unit),
            Check.WavePitch => WavePitchCheck.Evaluate(rule, frame, unit),
            Check.OrderOfWork check => OrderOfWorkCheck.Evaluate(check, rule, frame, unit),
            Check.RequiredEvent check => RequiredEventCheck.Evaluate(check, rule, frame, unit),
            Check.OrderOfEvents check => OrderOfEventsCheck.Evaluate(check, rule, frame, unit),
            Check.Protection check => ProtectionCheck.Evaluate(check, rule, frame, unit),
            Check.EnergyControl check => EnergyControlCheck.Evaluate(check, rule, frame),
            Check.Recency check => RecencyCheck.Evaluate(check, rule, frame, unit),
            Check.Credibility check => CredibilityCheck.Evaluate(check, rule, frame, unit),
            Check.Freshness check => FreshnessCheck.Evaluate(check, rule, frame, unit),
            Check.StepObtained check => StepObtainedCheck.Evaluate(check, rule, frame, unit),
            Check.Presence check => PresenceCheck.Evaluate(check, rule, frame, unit),
            Check.SoundCondition check => SoundConditionCheck.Evaluate(check, rule, frame, unit),
            Check.RecordPart check => RecordPartCheck.Evaluate(check, rule, frame, unit),
            _ => throw new InvalidOperationException("checks are a closed family"),
        };
}
