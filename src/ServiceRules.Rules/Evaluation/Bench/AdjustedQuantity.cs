using ServiceRules.Domain.Records;

namespace ServiceRules.Rules.Evaluation.Bench;

/// <summary>Which quantity an adjuster sets, and which adjuster a quantity is finely set by.</summary>
public static class AdjustedQuantity
{
    /// <summary>The quantity that an adjuster is there to set.</summary>
    public static MeasuredQuantity SetBy(AdjusterKind adjuster) =>
        adjuster switch
        {
            AdjusterKind.Clearance => MeasuredQuantity.Clearance,
            AdjusterKind.Height or AdjusterKind.HeightRange => MeasuredQuantity.HeightOfCut,
            AdjusterKind.FrontRoller => MeasuredQuantity.FrontRoller,
            AdjusterKind.BedknifePosition => MeasuredQuantity.Attitude,
            AdjusterKind.Groomer => MeasuredQuantity.GroomerHeight,
            AdjusterKind.Brush => MeasuredQuantity.BrushGap,
            AdjusterKind.Shield => MeasuredQuantity.ShieldGap,
            AdjusterKind.Bearings => MeasuredQuantity.BearingPlay,
            _ => throw new ArgumentOutOfRangeException(nameof(adjuster), adjuster, "not an adjuster"),
        };

    /// <summary>
    /// The adjuster that is turned to set a quantity; the coarse height range is chosen before, not turned to trim.
    /// </summary>
    public static AdjusterKind? FinelySetBy(MeasuredQuantity quantity) =>
        quantity switch
        {
            MeasuredQuantity.Clearance => AdjusterKind.Clearance,
            MeasuredQuantity.HeightOfCut => AdjusterKind.Height,
            MeasuredQuantity.FrontRoller => AdjusterKind.FrontRoller,
            MeasuredQuantity.Attitude => AdjusterKind.BedknifePosition,
            MeasuredQuantity.GroomerHeight => AdjusterKind.Groomer,
            MeasuredQuantity.BrushGap => AdjusterKind.Brush,
            MeasuredQuantity.ShieldGap => AdjusterKind.Shield,
            MeasuredQuantity.BearingPlay => AdjusterKind.Bearings,
            _ => null,
        };
}
