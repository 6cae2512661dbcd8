namespace ServiceRules.Domain.Conformity;

/// <summary>Whether a gauge can prove a limit.</summary>
public enum GaugeFitnessOutcome
{
    /// <summary>Some reading with this gauge would prove the limit kept.</summary>
    Fit,

    /// <summary>No reading with this gauge can prove the limit kept.</summary>
    Unfit,

    /// <summary>A one-sided limit with neither target nor natural bound: not judged.</summary>
    NotJudged,
}
