namespace ServiceRules.Domain.Timeline;

/// <summary>Position of an isolator.</summary>
public enum IsolatorPosition
{
    /// <summary>Off.</summary>
    Off,

    /// <summary>Closed.</summary>
    Closed,

    /// <summary>Blocked.</summary>
    Blocked,

    /// <summary>On.</summary>
    On,
}
