namespace ServiceRules.Domain.Records;

/// <summary>One observation of a quantity at a station, by a method with an instrument.</summary>
public sealed record Reading : BenchEntry
{
    /// <summary>What was read.</summary>
    public required MeasuredQuantity Quantity { get; init; }

    /// <summary>Where along the width. Absent: the quantity has one place, or the whole width was judged.</summary>
    public Station? Station { get; init; }

    /// <summary>Which reel blade, counted from 1, where it matters.</summary>
    public int? Blade { get; init; }

    /// <summary>Found, between or left, as the person says.</summary>
    public ReadingPhase? Phase { get; init; }

    /// <summary>What was observed.</summary>
    public required Observation Observed { get; init; }

    /// <summary>
    /// Why whoever took it takes it back: a slip, a feeler that was jammed, a wrong key pressed. It then counts for nothing, and is
    /// told.
    /// </summary>
    public string? Withdrawn { get; init; }

    /// <summary>With what.</summary>
    public Id<Instrument>? Instrument { get; init; }
}
