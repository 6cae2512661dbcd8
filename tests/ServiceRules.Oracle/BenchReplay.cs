using ServiceRules.Domain.Records;
using ServiceRules.Rules.Model;

namespace ServiceRules.Oracle;

/// <summary>The bench log, entry by entry.</summary>
internal sealed class BenchReplay(UnitWork unit, LimitSheet sheet)
{
    public static AdjusterKind? Fine(MeasuredQuantity quantity) =>
        quantity switch
        {
            MeasuredQuantity.Clearance => AdjusterKind.Clearance,
            MeasuredQuantity.HeightOfCut => AdjusterKind.Height,
            MeasuredQuantity.FrontRoller => AdjusterKind.FrontRoller,
            MeasuredQuantity.ShieldGap => AdjusterKind.Shield,
            MeasuredQuantity.BrushGap => AdjusterKind.Brush,
            MeasuredQuantity.GroomerHeight => AdjusterKind.Groomer,
            MeasuredQuantity.BearingPlay => AdjusterKind.Bearings,
            MeasuredQuantity.Attitude => AdjusterKind.BedknifePosition,
            _ => null,
        };

    public Fate After(MeasuredQuantity quantity, int from) =>
        After(quantity, from, unit.Entries.Length, [quantity]);

    /// <summary>Whether anything before an entry disturbs the quantity, by however little.</summary>
    public bool DisturbedBefore(MeasuredQuantity quantity, int entry)
    {
        var fate = After(quantity, -1, entry, [quantity]);
        return fate.IsVoid || fate.Carried.Count > 0;
    }

    /// <summary>What known steps between two entries shift the quantity by.</summary>
    public IReadOnlyList<decimal> ShiftedBetween(MeasuredQuantity quantity, int from, int until) =>
        After(quantity, from, until, [quantity]).Carried;

    private Fate After(MeasuredQuantity quantity, int from, int until, HashSet<MeasuredQuantity> asked)
    {
        bool own = false;
        bool other = false;
        Dictionary<AdjusterKind, (int Left, int Right)> steps = [];
        for (int i = from + 1; i < until; i++)
        {
            switch (unit.Entries[i])
            {
                case Adjustment turned:
                    own |= turned.Adjuster == Fine(quantity);
                    other |=
                        turned.Adjuster == AdjusterKind.HeightRange
                        && (quantity is MeasuredQuantity.HeightOfCut or MeasuredQuantity.FrontRoller);
                    other |= Turned(turned, quantity, steps);
                    break;
                case Grinding ground:
                    other |= Grinds(ground.Kind).Contains(quantity);
                    break;
                case PartFitted fitted:
                    other |= Fits(fitted.Part).Contains(quantity);
                    break;
            }
        }

        List<decimal> carried = [];
        foreach (var (kind, count) in steps)
        {
            var disturbance = Disturbance(kind, quantity)!;
            int busier = Math.Max(count.Left, count.Right);
            if (disturbance.StaleAfterSteps is { } most && busier > most)
            {
                other = true;
            }
            else if (busier > 0)
            {
                carried.Add(busier * disturbance.ShiftPerStep!.Governing.Value.Millimetres);
            }
        }

        foreach (var behind in Enum.GetValues<MeasuredQuantity>())
        {
            if (
                behind != quantity
                && Fine(behind) is { } adjuster
                && Disturbance(adjuster, quantity) is not null
                && asked.Add(behind)
            )
            {
                other |= After(behind, from, until, asked).Disturbed;
                asked.Remove(behind);
            }
        }

        return new(own, other, carried);
    }

    private bool Turned(
        Adjustment turned,
        MeasuredQuantity quantity,
        Dictionary<AdjusterKind, (int Left, int Right)> steps
    )
    {
        if (Disturbance(turned.Adjuster, quantity) is not { } disturbance)
        {
            return false;
        }

        if (disturbance.ShiftPerStep is null || Steps(turned) is not { } count)
        {
            return true;
        }

        var (left, right) = steps.GetValueOrDefault(turned.Adjuster);
        steps[turned.Adjuster] = (
            left + (turned.Side == Side.Right ? 0 : count),
            right + (turned.Side == Side.Left ? 0 : count)
        );
        return false;
    }

    private int? Steps(Adjustment turned) =>
        turned.Amount switch
        {
            AdjustmentAmount.Steps known => known.Count,
            AdjustmentAmount.Distance far when sheet.Of(turned.Adjuster)?.Step is { } step => (int)
                Math.Ceiling(far.Value.Value.Millimetres / step.Governing.Value.Millimetres),
            _ => null,
        };

    private Disturbance? Disturbance(AdjusterKind adjuster, MeasuredQuantity quantity) =>
        sheet.Of(adjuster)?.Disturbs.FirstOrDefault(d => d.Quantity == quantity);

    private static List<MeasuredQuantity> Grinds(GrindingKind kind)
    {
        var list = NearlyAll();
        if (kind is GrindingKind.ReelSpin or GrindingKind.ReelRelief or GrindingKind.Lapping)
        {
            list.AddRange([MeasuredQuantity.ReelDiameter, MeasuredQuantity.LandWidth]);
        }

        if (kind is GrindingKind.BedknifeTop or GrindingKind.BedknifeFront or GrindingKind.Lapping)
        {
            list.Add(MeasuredQuantity.BedknifeLip);
        }

        return list;
    }

    private static List<MeasuredQuantity> Fits(PartKind part) =>
        part switch
        {
            PartKind.Reel => [.. NearlyAll(), MeasuredQuantity.ReelDiameter, MeasuredQuantity.LandWidth],
            PartKind.Bedknife => [.. NearlyAll(), MeasuredQuantity.BedknifeLip],
            PartKind.Roller or PartKind.RollerBearing =>
            [
                MeasuredQuantity.HeightOfCut,
                MeasuredQuantity.FrontRoller,
                MeasuredQuantity.GroomerHeight,
                MeasuredQuantity.BrushGap,
            ],
            PartKind.ReelBearing => [MeasuredQuantity.BearingPlay, MeasuredQuantity.Clearance],
            PartKind.Brush => [MeasuredQuantity.BrushGap],
            PartKind.GroomerBlades => [MeasuredQuantity.GroomerHeight],
            PartKind.Guard => [MeasuredQuantity.Guards, MeasuredQuantity.ShieldGap],
            _ => [],
        };

    private static List<MeasuredQuantity> NearlyAll() =>
        [
            MeasuredQuantity.Clearance,
            MeasuredQuantity.HeightOfCut,
            MeasuredQuantity.FrontRoller,
            MeasuredQuantity.ShieldGap,
            MeasuredQuantity.GroomerHeight,
            MeasuredQuantity.Attitude,
            MeasuredQuantity.Edge,
        ];
}
