namespace ServiceRules.Rules.Model;

/// <summary>How a measured value is decided.</summary>
public enum RuleDecision
{
    /// <summary>Guarded by the full expanded uncertainty.</summary>
    Guarded,

    /// <summary>Guarded by 0.825 U.</summary>
    GuardedOneSided,

    /// <summary>Simple acceptance: no guard.</summary>
    Simple,

    /// <summary>By probability of conformance, 0.95 and 0.05.</summary>
    Probability,
}
