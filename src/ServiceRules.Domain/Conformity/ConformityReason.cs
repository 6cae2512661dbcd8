namespace ServiceRules.Domain.Conformity;

/// <summary>Why a verdict on a limit is what it is.</summary>
public enum ConformityReason
{
    /// <summary>Met: the value lies in the acceptance zone.</summary>
    InsideAcceptanceZone,

    /// <summary>Met: the probability of conformance reaches the bound.</summary>
    ProbablyInside,

    /// <summary>Met: the whole interval lies in the zone.</summary>
    IntervalInside,

    /// <summary>Not met: the value lies strictly outside the limits widened by the guard.</summary>
    OutsideGuardedLimits,

    /// <summary>Not met: the probability of conformance is at most the bound.</summary>
    ProbablyOutside,

    /// <summary>Not met: the whole interval lies outside the zone.</summary>
    IntervalOutside,

    /// <summary>Unproven: within the limits, but closer to one than the guard.</summary>
    InsideGuardBand,

    /// <summary>Unproven: beyond a limit, but by no more than the guard.</summary>
    OutsideWithinGuard,

    /// <summary>Unproven: no reading with this gauge can prove this limit, since the guards leave no room.</summary>
    EmptyAcceptanceZone,

    /// <summary>Unproven: the interval lies partly inside and partly outside the zone.</summary>
    IntervalStraddlesLimit,

    /// <summary>Unproven: nothing bounds the quantity on a side that has a limit, and the rest does not settle it.</summary>
    IntervalUnbounded,

    /// <summary>Unproven: the probability of conformance lies between the two bounds.</summary>
    ProbabilityBetweenBounds,
}
