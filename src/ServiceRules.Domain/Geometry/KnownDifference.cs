using System.Collections.Immutable;
using ServiceRules.Domain.Measurement;

namespace ServiceRules.Domain.Geometry;

/// <summary>What is known of the difference of two lengths that are each known.</summary>
public static class KnownDifference
{
    /// <summary>
    /// The left length minus the right one: measured when both are (u² = u₁² + u₂², what both share left out once for
    /// each), else the interval of all differences that they admit.
    /// </summary>
    /// <param name="left">From what is taken.</param>
    /// <param name="right">What is taken away.</param>
    /// <param name="ofLeft">What the left one shares with all of its cause; drops out where the right one shares it.</param>
    /// <param name="ofRight">What the right one shares with all of its cause.</param>
    public static Knowledge Between(
        Knowledge left,
        Knowledge right,
        SharedError? ofLeft = null,
        SharedError? ofRight = null
    )
    {
        var difference = LinearForm.Of([1m, -1m]);
        return (left, right) is (MeasuredValue first, MeasuredValue second)
            ? difference.Apply(
                [first, second],
                [ofLeft ?? SharedError.None, ofRight ?? SharedError.None],
                Misfit.None
            )
            : difference.Apply(ImmutableArray.Create(left.AsInterval(), right.AsInterval()));
    }
}
