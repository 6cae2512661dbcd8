namespace ServiceRules.Domain.Verdicts;

/// <summary>
/// What one requirement comes to. Three-valued where it applies: not measured, stale, or measured with an
/// unfit gauge is <see cref="Unproven"/>, never silently met.
/// </summary>
public enum Verdict
{
    /// <summary>The evidence proves the requirement is kept.</summary>
    Met,

    /// <summary>The evidence proves the requirement is broken.</summary>
    NotMet,

    /// <summary>The evidence proves neither.</summary>
    Unproven,

    /// <summary>The requirement does not concern this task or unit.</summary>
    NotApplicable,
}
