using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Remedies;

/// <summary>The smallest error that whole steps can be sure to leave; a limit tighter than this cannot be relied on.</summary>
/// <param name="EachSide">Half a step: a side is never further from its aim than this (derived).</param>
/// <param name="OutOfParallel">A whole step: both sides at their worst, rounded opposite ways (derived).</param>
public sealed record StepFloor(Length EachSide, Length OutOfParallel)
{
    /// <summary>The floor of an adjuster.</summary>
    /// <param name="step">Movement of one step, above zero.</param>
    public static StepFloor Of(Length step)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(step.Millimetres, nameof(step));
        return new(step * 0.5m, step);
    }
}
