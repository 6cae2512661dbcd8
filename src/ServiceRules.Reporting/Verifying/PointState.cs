namespace ServiceRules.Reporting.Verifying;

public enum PointState
{
    Passed,
    Failed,
    NotReached,

    /// <summary>It is not claimed, and a report need not claim it.</summary>
    NotClaimed,

    /// <summary>It is claimed, and there is no ground here to say yes or no.</summary>
    NotEstablished,
}
