using ServiceRules.Domain.Quantities;

namespace ServiceRules.Oracle;

/// <summary>What is known of a length at one place, in millimetres.</summary>
internal sealed record Spot
{
    /// <summary>From the left end; null: the quantity has one place.</summary>
    public required decimal? At { get; init; }

    public required SpotState State { get; init; }

    /// <summary>Whether the meaning of the log at this place is plain enough for an opinion.</summary>
    public bool IsPlain { get; init; } = true;

    /// <summary>Whether the gauge was fit: an unfit one shows a breach all the same, but nothing in.</summary>
    public bool IsFit { get; init; } = true;

    /// <summary>Whether its uncertainty is known.</summary>
    public bool Proves { get; init; } = true;

    /// <summary>
    /// Tried since the turn in a way that contradicts what was tried before it, or read again without outweighing what
    /// contradicts it: that shows a breach, and nothing in.
    /// </summary>
    public bool ShowsBreach { get; init; }

    /// <summary>
    /// What each of the readings that contradict one another says by itself; empty where they agree, null where no opinion
    /// is held of it.
    /// </summary>
    public IReadOnlyList<Spot>? Believed { get; init; } = [];

    /// <summary>Whether a length is told here at all.</summary>
    public bool Tells => State == SpotState.Known || ShowsBreach;

    public bool IsInterval { get; init; }

    /// <summary>The value, or null for an interval.</summary>
    public decimal Value { get; init; }

    /// <summary>Least and greatest square of the standard uncertainty, without the shared part.</summary>
    public (double Least, double Greatest) Own { get; init; }

    /// <summary>Square of the part that all readings of the gauge share.</summary>
    public double Shared { get; init; }

    /// <summary>Of the least and of the greatest square of its own: what a study of how the gauge repeats found.</summary>
    public (double Least, double Greatest, double Degrees) Scatter { get; init; } =
        (0, 0, double.PositiveInfinity);

    /// <summary>Of the shared square: what a certificate states.</summary>
    public (double Square, double Degrees) Certificate { get; init; } = (0, double.PositiveInfinity);

    public string? Gauge { get; init; }

    /// <summary>Lower end, itself possible; null: unbounded.</summary>
    public decimal? Low { get; init; }

    /// <summary>Upper end, itself not possible; null: unbounded.</summary>
    public decimal? High { get; init; }

    public UnitSystem System { get; init; }
}
