namespace ServiceRules.Oracle;

/// <summary>
/// Verdicts that the written meaning leaves possible. One flag: the meaning decides; more: it is silent here, or the
/// numbers lie too close to a limit for naive arithmetic.
/// </summary>
[Flags]
public enum Possible
{
    /// <summary>Nothing yet.</summary>
    None = 0,

    /// <summary>Met.</summary>
    Met = 1,

    /// <summary>Not met.</summary>
    NotMet = 2,

    /// <summary>Unproven.</summary>
    Unproven = 4,

    /// <summary>Not applicable.</summary>
    NotApplicable = 8,

    /// <summary>Anything but met.</summary>
    NeverMet = NotMet | Unproven,

    /// <summary>Anything but not met.</summary>
    NeverNotMet = Met | Unproven,

    /// <summary>Any verdict where the rule applies.</summary>
    Judged = Met | NotMet | Unproven,

    /// <summary>No opinion.</summary>
    Any = Judged | NotApplicable,
}
