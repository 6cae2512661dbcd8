using System.Collections.Immutable;
using ServiceRules.Domain.Records;
using ServiceRules.Rules.Model;

namespace ServiceRules.Engine.Judging;

/// <summary>Which quantity each adjuster is there to set, and what setting a quantity upsets on a kind of unit.</summary>
internal static class OwnQuantity
{
    public static MeasuredQuantity Of(AdjusterKind adjuster) =>
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
            _ => throw new EngineFaultException($"adjuster `{adjuster}` sets no known quantity"),
        };

    /// <summary>
    /// The adjuster that is turned to set a quantity; the coarse height range is chosen before, not turned to trim.
    /// </summary>
    public static AdjusterKind? SetBy(MeasuredQuantity quantity) =>
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

    /// <summary>
    /// Quantities that turning this adjuster upsets on the sheet's kind of unit, directly or through another, in one
    /// direction only: where two upset one another neither can be settled first.
    /// </summary>
    public static ImmutableArray<MeasuredQuantity> Upsets(LimitSheet sheet, AdjusterKind adjuster)
    {
        var own = Of(adjuster);
        return
        [
            .. Reached(sheet, adjuster)
                .Where(upset =>
                    upset != own && (SetBy(upset) is not { } back || !Reached(sheet, back).Contains(own))
                )
                .Order(),
        ];
    }

    private static HashSet<MeasuredQuantity> Reached(LimitSheet sheet, AdjusterKind from)
    {
        var reached = new HashSet<MeasuredQuantity>();
        var open = new Queue<AdjusterKind>([from]);
        while (open.TryDequeue(out var next))
        {
            foreach (
                var disturbed in (sheet.Of(next)?.Disturbs ?? [])
                    .Select(disturbance => disturbance.Quantity)
                    .Where(reached.Add)
            )
            {
                if (SetBy(disturbed) is { } adjuster)
                {
                    open.Enqueue(adjuster);
                }
            }
        }

        return reached;
    }
}
