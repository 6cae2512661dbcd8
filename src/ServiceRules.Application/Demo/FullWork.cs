using System.Globalization;
using ServiceRules.Domain.Records;

namespace ServiceRules.Application.Demo;

/// <summary>The long jobs: everything measured, set in order and measured again, with or without the grinder.</summary>
internal static class FullWork
{
    // Below this a bedknife is not ground again.
    private const decimal SmallestLip = 4.8m;

    // How long the stone takes for a millimetre of diameter. Judgement, no source.
    private const int MinutesPerMillimetre = 30;

    // A roller nearer than this to parallel is not touched.
    private const decimal RollerLeftAlone = 0.015m;

    // The two feelers of the shield, 0.055 in and 0.070 in.
    private const decimal ShieldPasses = 1.397m;
    private const decimal ShieldStops = 1.778m;

    public static void Service(UnitLog log)
    {
        log.Unit.SettleForClicks(log.Visit.Chance);
        LookOver(log);
        ReadAsFound(log);
        FitNewParts(log);
        ReadDiameter(log);
        SetFromNothing(log);
    }

    /// <summary>Ground, measured and set.</summary>
    /// <param name="log">The unit.</param>
    /// <param name="run">How the stone is run; absent: on a grinder of which the job does not tell.</param>
    public static void Grind(UnitLog log, Action<Action>? run = null)
    {
        log.Unit.SettleForClicks(log.Visit.Chance);
        LookOver(log);
        ReadAsFound(log);
        if (run is null)
        {
            Stone(log);
        }
        else
        {
            run(() => Stone(log));
        }

        log.Unit.SettleForClicks(log.Visit.Chance);
        ReadDiameter(log);
        ReadReserve(log);
        SetFromNothing(log);
    }

    private static void LookOver(UnitLog log)
    {
        var unit = log.Unit;
        unit.HasBearingPlay |= log.Visit.Has(SeededFaultKind.BearingPlay, unit);
        log.See(MeasuredQuantity.Guards, Condition.Sound, 30);
        log.See(MeasuredQuantity.BearingPlay, unit.HasBearingPlay ? Condition.Faulty : Condition.Sound, 30);
    }

    private static void ReadAsFound(UnitLog log)
    {
        ClearanceWork.ReadAsFound(log);
        HeightWork.Read(log, ReadingPhase.Found);
    }

    private static void ReadDiameter(UnitLog log)
    {
        var (unit, tape) = (log.Unit, log.Visit.Instruments.DiameterTape());
        var (left, right) = (UnitKind.EdgeInset, unit.Kind.Width - UnitKind.EdgeInset);
        log.Measure(MeasuredQuantity.ReelDiameter, UnitLog.At(left), unit.Diameter + (unit.Taper / 2), tape);
        log.Measure(MeasuredQuantity.ReelDiameter, UnitLog.At(right), unit.Diameter - (unit.Taper / 2), tape);
    }

    private static void ReadReserve(UnitLog log)
    {
        var calliper = log.Visit.Instruments.Calliper();
        log.Measure(MeasuredQuantity.BedknifeLip, null, log.Unit.Lip, calliper);
        log.Measure(MeasuredQuantity.LandWidth, null, log.Unit.Land, calliper);
    }

    /// <summary>Knife first, then relief, then spin, as deep as the nicks are.</summary>
    private static void Stone(UnitLog log)
    {
        var (unit, visit) = (log.Unit, log.Visit);
        var tape = visit.Instruments.DiameterTape();
        var calliper = visit.Instruments.Calliper();
        var lip = unit.Lip;
        unit.Lip = visit.Has(SeededFaultKind.BedknifeLipGone, unit)
            ? 4.55m
            : Math.Max(5.4m, lip - visit.Chance.Between(0.15m, 0.30m));
        log.Grind(GrindingKind.BedknifeTop, calliper.Shown(lip), calliper.Shown(unit.Lip), 6);
        var before = unit.Diameter;
        unit.Diameter = GroundTo(unit, visit);
        log.Grind(
            GrindingKind.ReelSpin,
            tape.Shown(before),
            tape.Shown(unit.Diameter),
            10 + (int)((before - unit.Diameter) * MinutesPerMillimetre)
        );
        unit.Land = visit.Chance.Between(1.2m, 1.6m);
        unit.Taper = visit.Chance.Noise(0.02m);
        // Half of what the reel lost lies between it and the knife now.
        var opened = (before - unit.Diameter) / 2;
        unit.SetGap(unit.GapLeft + opened, unit.GapRight + opened);
    }

    private static decimal GroundTo(UnitCondition unit, Visit visit)
    {
        var (least, most) = unit.Kind.GrindLoss;
        var ground = unit.Diameter - visit.Chance.Between(least, most);
        if (visit.Has(SeededFaultKind.ReelBelowServiceLimit, unit))
        {
            return 189.66m;
        }

        // Near the worn value the shop grinds through it at once, and sets the unit up as worn.
        var isNear = unit.Kind.WornBelow is { } near && ground > near - 0.3m && ground < near + 0.2m;
        return unit.Kind.WornBelow is { } worn && (isNear || visit.Has(SeededFaultKind.WornReelNotSetUp))
            ? worn - 0.28m + visit.Chance.Noise(0.04m)
            : ground;
    }

    /// <summary>What is worn out is replaced.</summary>
    private static void FitNewParts(UnitLog log)
    {
        var (unit, chance) = (log.Unit, log.Visit.Chance);
        if (unit.HasBearingPlay && log.Visit.Plan.Fault is not SeededFaultKind.BearingPlay)
        {
            log.Fit(PartKind.ReelBearing, null, "left-hand bearing rough, both replaced", 25);
            log.See(MeasuredQuantity.BearingPlay, Condition.Sound, 30);
            unit.HasBearingPlay = false;
        }

        if (unit.Diameter < unit.Kind.SmallestDiameter)
        {
            unit.Reel = string.Create(CultureInfo.InvariantCulture, $"R-26{chance.Between(100, 999)}");
            unit.Diameter = unit.Kind.NewDiameter;
            log.Fit(PartKind.Reel, unit.Reel, "new reel and bearings", 50);
            log.See(MeasuredQuantity.BearingPlay, Condition.Sound, 30);
        }

        if (unit.Lip < SmallestLip)
        {
            unit.Bedknife = string.Create(CultureInfo.InvariantCulture, $"B-26{chance.Between(100, 999)}");
            unit.Lip = 8.0m;
            log.Fit(PartKind.Bedknife, unit.Bedknife, "new bedknife, ground on its bar after fitting", 40);
        }
    }

    /// <summary>Bearings, knife position, clearance, roller, height, and what hangs on it, in that order.</summary>
    private static void SetFromNothing(UnitLog log)
    {
        var (unit, visit) = (log.Unit, log.Visit);
        var isSetUpForWear = unit.IsWorn && !visit.Has(SeededFaultKind.WornReelNotSetUp, unit);
        if (isSetUpForWear)
        {
            log.Turn(AdjusterKind.BedknifePosition, Side.Both);
        }

        ClearanceWork.Set(log);
        if (isSetUpForWear)
        {
            log.Turn(AdjusterKind.FrontRoller, Side.Both);
        }

        SquareRoller(log);
        HeightWork.Trim(log, HeightWork.Read(log));
        HeightWork.Groomer(log);
        SetBrush(log);
        SetShield(log);
    }

    private static void SquareRoller(UnitLog log)
    {
        var (unit, visit) = (log.Unit, log.Visit);
        var isLeft = visit.Has(SeededFaultKind.FrontRollerOutOfParallel, unit);
        if (isLeft)
        {
            unit.RollerOut = unit.Kind.HasMovingBedknife ? 0.14m : 0.30m;
        }

        ReadRoller(log);
        if (isLeft || Math.Abs(unit.RollerOut) <= RollerLeftAlone)
        {
            return;
        }

        log.Turn(
            AdjusterKind.FrontRoller,
            Side.Right,
            unit.RollerOut > 0m ? AdjustDirection.Close : AdjustDirection.Open,
            new AdjustmentAmount.NotStated()
        );
        unit.RollerOut = visit.Chance.Noise(0.008m);
        ReadRoller(log);
    }

    private static void ReadRoller(UnitLog log)
    {
        var dial = log.Visit.Instruments.Dial();
        log.Measure(MeasuredQuantity.FrontRoller, UnitLog.At(StationName.Left), 0m, dial);
        log.Measure(MeasuredQuantity.FrontRoller, UnitLog.At(StationName.Right), log.Unit.RollerOut, dial);
    }

    private static void SetBrush(UnitLog log)
    {
        if (!log.Unit.Machine.Carries(Attachment.RollerBrush))
        {
            return;
        }

        log.Turn(AdjusterKind.Brush, Side.Both);
        log.Unit.Brush = 1.0m + log.Visit.Chance.Noise(0.05m);
        Bracket(log, MeasuredQuantity.BrushGap, log.Unit.Brush, UnitKind.GaugeInset, "0.035 in", "0.045 in");
    }

    private static void SetShield(UnitLog log)
    {
        var (unit, visit) = (log.Unit, log.Visit);
        var isLeft = visit.Has(SeededFaultKind.ShieldTooWide, unit);
        if (isLeft)
        {
            unit.Shield = 2.4m;
        }

        ReadShield(log);
        if (isLeft || unit.Shield is > ShieldPasses and < ShieldStops)
        {
            return;
        }

        log.Turn(AdjusterKind.Shield, Side.Both);
        unit.Shield = 1.6m + visit.Chance.Noise(0.05m);
        ReadShield(log);
    }

    private static void ReadShield(UnitLog log) =>
        Bracket(log, MeasuredQuantity.ShieldGap, log.Unit.Shield, UnitKind.EdgeInset, "0.055 in", "0.070 in");

    /// <summary>One thick feeler that should pass and one that should not, at both ends.</summary>
    private static void Bracket(
        UnitLog log,
        MeasuredQuantity quantity,
        decimal gap,
        decimal inset,
        string passes,
        string stops
    )
    {
        var feelers = log.Visit.Instruments.ThickFeelers();
        foreach (var at in new[] { inset, log.Unit.Kind.Width - inset })
        {
            log.TryFeeler(quantity, UnitLog.At(at), gap, passes, feelers);
            log.TryFeeler(quantity, UnitLog.At(at), gap, stops, feelers);
        }
    }
}
