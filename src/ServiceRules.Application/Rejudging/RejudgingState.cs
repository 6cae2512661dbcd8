namespace ServiceRules.Application.Rejudging;

/// <summary>How far judging the history again is. The numbers are kept and stay.</summary>
public enum RejudgingState
{
    /// <summary>Pages of it wait, or are under way.</summary>
    Running = 0,

    /// <summary>Every record was looked at.</summary>
    Done = 1,

    /// <summary>Other rules were put in force before it was done: what was not looked at by then is not.</summary>
    Ended = 2,
}
