namespace ServiceRules.Application.RuleCases.Mutation;

/// <summary>How a folder of rules is changed to see whether a case tells.</summary>
public enum MutationKind
{
    /// <summary>A limit moved.</summary>
    LimitMoved,

    /// <summary>A part of when a rule applies left out.</summary>
    ConditionDropped,

    /// <summary>What a breach or a want of proof does, made lighter.</summary>
    EffectSoftened,

    /// <summary>How a value is held against a limit, made laxer.</summary>
    DecisionLoosened,
}
