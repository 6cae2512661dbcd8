using System.Collections.Immutable;
using ServiceRules.Domain.Conformity;
using ServiceRules.Domain.Geometry;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Remedies;

/// <summary>What is asked of <see cref="ClickSolver"/>.</summary>
public sealed record ClickTask
{
    /// <summary>What is turned.</summary>
    public required AdjusterPair Adjusters { get; init; }

    /// <summary>What is known at the stations now.</summary>
    public required ImmutableArray<StationReading> Readings { get; init; }

    /// <summary>
    /// Where <see cref="Readings"/> are estimates: what is really known of each of them, in the same order. Places must
    /// land in the zone by the estimate; contact is counted on the least that is possible, and where nothing else decides,
    /// the side that opens is turned first. Empty: the readings are what is known.
    /// </summary>
    public ImmutableArray<StationReading> Bounds { get; init; } = [];

    /// <summary>The width, from the left end at 0.</summary>
    public required Length Width { get; init; }

    /// <summary>
    /// Where every place must land; for a limit printed twice, <see cref="ToleranceZone.InsideBothPrints"/>.
    /// </summary>
    public required ToleranceZone Zone { get; init; }

    /// <summary>The value to come closest to among equally short ways.</summary>
    public required Length Target { get; init; }

    /// <summary>
    /// The zone that what comes nearest is told by, where it is another than <see cref="Zone"/>: the print that the readings are
    /// held against. Of settings that miss it by as little, the one that misses <see cref="Zone"/> by less.
    /// </summary>
    public ToleranceZone? HeldTo { get; init; }

    /// <summary>
    /// Which line each reading lies on, in the order of <see cref="Readings"/>: the blade that it was read on. Each line has ends of
    /// its own. Empty: all lie on one.
    /// </summary>
    public ImmutableArray<int?> Lines { get; init; } = [];

    /// <summary>Whether only the stations must land in the zone, and not the two ends.</summary>
    public bool StationsOnly { get; init; }

    /// <summary>
    /// Whether contact is to be avoided (air-gap school): from a contact-free start no single step may touch at any
    /// station or end, a start in contact is never deepened and is left as early as possible, and the result is
    /// contact-free. A place touches where its gap could be zero or less.
    /// </summary>
    public bool KeepClear { get; init; }

    /// <summary>What all readings share because one instrument took them; see <see cref="WidthFit.Through"/>.</summary>
    public StandardUncertainty Shared { get; init; }
}
