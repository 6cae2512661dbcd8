using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Remedies;

/// <summary>
/// The usual bench method in figures: a shim or feeler that just drags at both ends, then so many steps in. What is left is
/// the thickness less the steps; zero or less touches (derived). The drag felt adds an amount that nobody knows.
/// </summary>
public static class ShimAndClick
{
    /// <summary>The gap left; negative by as much as the edges press.</summary>
    /// <param name="shim">Thickness of the shim that just drags, zero or more.</param>
    /// <param name="stepsIn">Steps closed on both sides, zero or more.</param>
    /// <param name="step">Movement of one step, above zero.</param>
    public static Length GapLeft(Length shim, int stepsIn, Length step) => shim - (step * stepsIn);

    /// <summary>The fewest steps in after which it just touches: the gap left is zero or less, by less than one step.</summary>
    /// <param name="shim">Thickness of the shim that just drags, zero or more.</param>
    /// <param name="step">Movement of one step, above zero.</param>
    public static int StepsToTouch(Length shim, Length step)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(shim.Millimetres, nameof(shim));
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(step.Millimetres, nameof(step));
        return (int)decimal.Ceiling(shim.Millimetres / step.Millimetres);
    }
}
