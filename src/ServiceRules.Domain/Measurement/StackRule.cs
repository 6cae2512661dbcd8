namespace ServiceRules.Domain.Measurement;

/// <summary>How the tolerances of feelers that are tried as one stack come together.</summary>
public enum StackRule
{
    /// <summary>They add up: no stack is further off, whatever its feelers have in common.</summary>
    WorstCase,

    /// <summary>
    /// Root of the sum of squares: only for feelers that are independent of one another, and no certain bound. Of stacks of
    /// two about one in twelve is further off.
    /// </summary>
    RootSum,
}
