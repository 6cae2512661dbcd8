using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Geometry;

/// <summary>
/// How far a reel departs from a cylinder, from diameters read along it. Taper is one end larger than the other;
/// barrel (positive) or hourglass (negative) is the middle larger or smaller than the mean of the ends.
/// </summary>
/// <param name="Taper">
/// Diameter at the right end minus diameter at the left end, by the line through the readings (turf reference formula
/// F22, its definition sourced there).
/// </param>
/// <param name="Barrel">
/// Diameter in the middle minus the mean of the ends, by the parabola through the readings (F24, derived); none with
/// fewer than three different stations.
/// </param>
public sealed record ReelForm(Knowledge Taper, Knowledge? Barrel)
{
    private const int AngleDecimals = 4;

    /// <summary>
    /// How much the height of cut tilts over the width though the bedknife is set parallel to the blades: half the taper,
    /// since the shear point lies near the bottom of the reel (F23: derived, no source found).
    /// </summary>
    public Knowledge HeightTilt => Half(Taper);

    /// <summary>
    /// How much narrower the gap is in the middle than at the ends, the bedknife being straight: half the barrel (F24,
    /// derived).
    /// </summary>
    public Knowledge? GapError => Barrel is null ? null : Half(Barrel);

    /// <summary>The form of a reel with these diameters.</summary>
    /// <param name="diameters">The fit through the diameters along the width.</param>
    public static ReelForm Of(WidthFit diameters) => new(diameters.Tilt, diameters.Bow);

    /// <summary>
    /// The half angle of the cone, atan(|taper|/(2L)), to 0.0001 degree (F22).
    /// </summary>
    /// <param name="taper">Difference of the diameters at both ends of the length.</param>
    /// <param name="length">The length L, more than nothing.</param>
    public static Angle ConeHalfAngle(Length taper, Length length)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(length.Millimetres, nameof(length));
        var radians = Math.Atan((double)(taper.Abs.Millimetres / (2 * length.Millimetres)));
        return Angle.FromDegrees(Math.Round((decimal)(radians * 180 / Math.PI), AngleDecimals));
    }

    private static Knowledge Half(Knowledge whole)
    {
        var half = LinearForm.Of([0.5m]);
        return whole is MeasuredValue measured
            ? half.Apply([measured], [SharedError.None], Misfit.None)
            : half.Apply([whole.AsInterval()]);
    }
}
