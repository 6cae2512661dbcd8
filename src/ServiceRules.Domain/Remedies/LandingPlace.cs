namespace ServiceRules.Domain.Remedies;

/// <summary>What kind of place a prediction is for.</summary>
public enum LandingPlace
{
    /// <summary>A station that was read.</summary>
    Station,

    /// <summary>The left end, by the fitted line.</summary>
    LeftEnd,

    /// <summary>The right end, by the fitted line.</summary>
    RightEnd,
}
