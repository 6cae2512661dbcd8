namespace ServiceRules.Domain.Verdicts;

/// <summary>May it go out?</summary>
public enum Disposition
{
    /// <summary>May go out.</summary>
    Release,

    /// <summary>Hold.</summary>
    Hold,

    /// <summary>Make safe first; on a closed job: safe work not shown.</summary>
    Stop,
}
