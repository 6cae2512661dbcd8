namespace ServiceRules.Domain.Remedies;

/// <summary>How a learned step stands to the step that the limit sheet states.</summary>
public enum StepAnswer
{
    /// <summary>The stated step is among those that the readings allow.</summary>
    Agrees,

    /// <summary>Proven to move by less than stated.</summary>
    MovesLess,

    /// <summary>Proven to move by more than stated.</summary>
    MovesMore,
}
