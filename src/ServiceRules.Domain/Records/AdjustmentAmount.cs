using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Records;

/// <summary>How much something was turned. A closed family.</summary>
public abstract record AdjustmentAmount
{
    private AdjustmentAmount() { }

    /// <summary>A count of adjuster steps (clicks), 1 or more; the direction is told beside it.</summary>
    public sealed record Steps(int Count) : AdjustmentAmount;

    /// <summary>A distance; never negative.</summary>
    public sealed record Distance(PrintedLength Value) : AdjustmentAmount;

    /// <summary>Moved by an amount nobody noted.</summary>
    public sealed record NotStated : AdjustmentAmount;
}
