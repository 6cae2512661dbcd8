namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>What takes the ground from a duty.</summary>
[Flags]
internal enum Suppressors
{
    /// <summary>Nothing: a claim judges itself, and what is beside isolation stands whether or not isolation is excepted.</summary>
    None = 0,

    /// <summary>An exemption that holds.</summary>
    Exemption = 1,

    /// <summary>No lock, tag or kept plug at all.</summary>
    NoDevice = 2,

    /// <summary>No procedure, or one where nothing can be switched on.</summary>
    NothingToInspect = 4,

    /// <summary>No two people at work at one time.</summary>
    NoGroup = 8,
}
