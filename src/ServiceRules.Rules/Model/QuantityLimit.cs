using System.Collections.Immutable;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;

namespace ServiceRules.Rules.Model;

/// <summary>What a sheet asks of one quantity.</summary>
public sealed record QuantityLimit
{
    /// <summary>The quantity.</summary>
    public required MeasuredQuantity Quantity { get; init; }

    /// <summary>Left gauging station, from the left end; absent: read at one place or over the whole width.</summary>
    public PrintedLength? LeftStation { get; init; }

    /// <summary>Right gauging station, from the left end.</summary>
    public PrintedLength? RightStation { get; init; }

    /// <summary>Lower limit.</summary>
    public DualPrint? Lower { get; init; }

    /// <summary>Upper limit.</summary>
    public DualPrint? Upper { get; init; }

    /// <summary>Value aimed at between the limits.</summary>
    public DualPrint? Target { get; init; }

    /// <summary>Allowed either way from the target of the setting order.</summary>
    public DualPrint? ToleranceAboutTarget { get; init; }

    /// <summary>Largest difference between the two ends of one unit.</summary>
    public DualPrint? SideToSide { get; init; }

    /// <summary>Largest difference between the units of one machine.</summary>
    public DualPrint? AcrossUnits { get; init; }

    /// <summary>Largest step between adjacent ends of neighbouring units.</summary>
    public DualPrint? AdjacentEnds { get; init; }

    /// <summary>Largest departure from parallel to the datum, over the width.</summary>
    public DualPrint? Parallelism { get; init; }

    /// <summary>For the reel's diameter: largest difference between its two ends.</summary>
    public DualPrint? Taper { get; init; }

    /// <summary>For the reel's diameter: largest difference between the middle and the mean of the ends.</summary>
    public DualPrint? Barrel { get; init; }

    /// <summary>For the front roller on the plate: largest twist of the two rollers against one another.</summary>
    public DualPrint? Twist { get; init; }

    /// <summary>Procedures of the schools, for the clearance.</summary>
    public ImmutableArray<SchoolProcedure> Schools { get; init; } = [];

    /// <summary>For wear: the value at or below which the unit must be set up for a worn reel.</summary>
    public DualPrint? WornBelow { get; init; }

    /// <summary>What this limit rests on.</summary>
    public required Basis Basis { get; init; }

    /// <summary>
    /// Whether this sheet allows less about a target than an order would, by what it prints in the order's system: then the
    /// sheet's tolerance is the one that counts.
    /// </summary>
    /// <param name="ordered">What an order allows either way.</param>
    public bool IsTighterThan(PrintedLength ordered)
    {
        ArgumentNullException.ThrowIfNull(ordered);
        return ToleranceAboutTarget is { } own && own.In(ordered.System).Abs < ordered.Value.Abs;
    }
}
