namespace ServiceRules.Application.RuleCases.Coverage;

/// <summary>What kind of thing a case can exercise.</summary>
public enum CoverageKind
{
    /// <summary>A verdict of a rule.</summary>
    Verdict,

    /// <summary>One way of one part of when a rule applies.</summary>
    Condition,

    /// <summary>One side of one printed limit of a sheet.</summary>
    Limit,
}
