using ServiceRules.Domain.Measurement;

namespace ServiceRules.Domain.Geometry;

/// <summary>Twist of the two rollers of a unit that stands on a plate: how far one is turned against the other.</summary>
public static class RollerTwist
{
    /// <summary>
    /// (front left - front right) - (rear left - rear right), from the gaps under the corners, each roller taken over the
    /// whole width by the line through its gaps (turf reference formula F19, with the scaling to the blade ends of F36;
    /// derived, no source found). Positive: the front roller is high on the left against the rear one.
    /// </summary>
    /// <param name="front">Gaps between front roller and plate.</param>
    /// <param name="rear">Gaps between rear roller and plate.</param>
    public static Knowledge Of(WidthFit front, WidthFit rear) =>
        KnownDifference.Between(rear.Tilt, front.Tilt);
}
