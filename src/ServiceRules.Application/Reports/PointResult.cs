namespace ServiceRules.Application.Reports;

/// <summary>How one check of a report ended.</summary>
public enum PointResult
{
    Passed,

    Failed,

    /// <summary>An earlier failure made the check impossible.</summary>
    NotReached,

    /// <summary>This program cannot tell: the report is of a version that it does not know.</summary>
    NotEstablished,

    /// <summary>The report makes no such claim, and nobody asked that it should.</summary>
    NotClaimed,
}
