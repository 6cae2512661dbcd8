namespace ServiceRules.Domain.Remedies;

/// <summary>How a height can be moved.</summary>
public enum MoveKind
{
    /// <summary>To any height that a person can set.</summary>
    Freely,

    /// <summary>By whole parts of a turn of a screw, which is turned to its aim in one go: they are no steps to save.</summary>
    ByParts,

    /// <summary>By whole steps, the fewer the better.</summary>
    BySteps,
}
