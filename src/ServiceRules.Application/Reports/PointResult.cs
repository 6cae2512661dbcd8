namespace ServiceRules.Application.Reports;

/// <summary>How one check of a report ended.</summary>
public enum PointResult
{
    Passed,

    Failed,

    /// <summary>An earlier failure made the check impossible.</summary>
    NotReached,

    /// <summary>There is no ground here to tell: a version that this program does not know, or an authority not trusted here.</summary>
    NotEstablished,

    /// <summary>The report makes no such claim, and nobody asked that it should.</summary>
    NotClaimed,
}
