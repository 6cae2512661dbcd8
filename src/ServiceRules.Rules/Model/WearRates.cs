using ServiceRules.Domain.Quantities;

namespace ServiceRules.Rules.Model;

/// <summary>How fast the parts of one kind of unit are used up, by the site's own figures: none are published.</summary>
public sealed record WearRates
{
    /// <summary>Reel diameter lost from one grind to the next, wear between them included.</summary>
    public DualPrint? ReelPerGrind { get; init; }

    /// <summary>Reel diameter lost in an hour of mowing.</summary>
    public WearRate? ReelPerHour { get; init; }

    /// <summary>Bedknife lip lost in one grind of its top face.</summary>
    public DualPrint? LipPerFacing { get; init; }

    /// <summary>Relief angle behind the land, from the tangent.</summary>
    public Angle? ReliefAngle { get; init; }

    /// <summary>What these figures rest on.</summary>
    public required Basis Basis { get; init; }
}
