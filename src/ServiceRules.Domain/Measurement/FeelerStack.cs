using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Measurement;

/// <summary>Feelers tried together as one.</summary>
public static class FeelerStack
{
    /// <summary>
    /// Half width of the tolerance of a stack of n feelers, each true to e: n·e in the worst case, e·√n by root-sum,
    /// rounded up to 1e-7 mm. A single feeler keeps its own.
    /// </summary>
    /// <param name="each">Tolerance e of one feeler, zero or more.</param>
    /// <param name="feelers">How many, at least one.</param>
    /// <param name="rule">How they come together.</param>
    public static Length Tolerance(Length each, int feelers, StackRule rule)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(each.Millimetres, nameof(each));
        ArgumentOutOfRangeException.ThrowIfLessThan(feelers, 1);
        return rule is StackRule.WorstCase || feelers == 1
            ? each * feelers
            : StandardUncertainty.FromComputed((double)each.Millimetres * Math.Sqrt(feelers)).Value;
    }
}
