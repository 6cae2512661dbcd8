namespace ServiceRules.Domain.Timeline;

/// <summary>Why somebody says that the steps of making safe need not all be taken.</summary>
public enum ExemptionKind
{
    /// <summary>Minor servicing during normal use: routine, repetitive and integral to it, with other measures.</summary>
    MinorServicing,

    /// <summary>Cord and plug are the only source, and the plug is kept by whoever works.</summary>
    CordAndPlug,

    /// <summary>A machine so simple that no written procedure is needed; see <see cref="UndocumentedFacts"/>.</summary>
    UndocumentedProcedure,

    /// <summary>The work is said not to be covered at all: for a person to decide.</summary>
    NotCovered,
}
