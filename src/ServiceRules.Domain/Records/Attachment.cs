namespace ServiceRules.Domain.Records;

/// <summary>What is fitted to a unit beyond reel, bedknife and rollers.</summary>
public enum Attachment
{
    /// <summary>Grooming reel.</summary>
    Groomer,

    /// <summary>Rotating roller brush.</summary>
    RollerBrush,

    /// <summary>Adjustable clipping shield.</summary>
    Shield,
}
