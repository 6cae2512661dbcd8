namespace ServiceRules.Domain.Timeline;

/// <summary>What an event may say beyond time, actor and how the entry came about, where only some kinds may say it.</summary>
public enum EventMember
{
    /// <summary>The energy source.</summary>
    Source,

    /// <summary>The lock or tag.</summary>
    Lock,

    /// <summary>Position in which an isolator was left.</summary>
    Position,

    /// <summary>Kind of isolator.</summary>
    Isolator,

    /// <summary>A pressure read as proof.</summary>
    Pressure,

    /// <summary>A documented exception relied on.</summary>
    Exception,

    /// <summary>Whether a tag hangs where the lock would.</summary>
    AtLockPoint,

    /// <summary>What is done beside hanging a tag.</summary>
    ExtraMeasure,

    /// <summary>What is said for an exemption.</summary>
    Claim,

    /// <summary>Measures in place.</summary>
    Measures,

    /// <summary>Whom the one in charge answers for.</summary>
    Count,

    /// <summary>Crews brought together.</summary>
    Crews,

    /// <summary>Other people concerned.</summary>
    Others,

    /// <summary>Which task the machine runs for.</summary>
    Task,

    /// <summary>Which procedure was gone through.</summary>
    Procedure,
}
