using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;

namespace ServiceRules.Application.Demo;

/// <summary>Height of cut and groomer: how the shop reads them and trims them.</summary>
internal static class HeightWork
{
    // A turn finer than this is not worth the spanner.
    private const decimal Finest = 0.015m;
    private const int MostTrims = 4;

    /// <summary>Reads both ends on the gauge bar.</summary>
    public static (decimal Left, decimal Right) Read(UnitLog log, ReadingPhase? phase = null)
    {
        var gauge = log.Visit.HeightGauge;
        var left = log.Measure(
            MeasuredQuantity.HeightOfCut,
            UnitLog.At(StationName.Left),
            log.Unit.HeightLeft,
            gauge,
            phase
        );
        if (log.Visit.Has(SeededFaultKind.HeightReadAtOneEnd, log.Unit))
        {
            return (left, left);
        }

        var right = log.Measure(
            MeasuredQuantity.HeightOfCut,
            UnitLog.At(StationName.Right),
            log.Unit.HeightRight,
            gauge,
            phase
        );
        return (left, right);
    }

    /// <summary>Reads as found and trims until both ends are near enough; the groomer follows.</summary>
    public static void BringToTarget(UnitLog log, bool always)
    {
        var read = Read(log, ReadingPhase.Found);
        if (always || IsOff(log, read))
        {
            Trim(log, read);
            Groomer(log);
        }
    }

    /// <summary>Trims from what was read last.</summary>
    public static void Trim(UnitLog log, (decimal Left, decimal Right) read)
    {
        for (var trim = 0; trim < MostTrims; trim++)
        {
            var turned = TurnSides(log, Wanted(log) - read.Left, Wanted(log) - read.Right);
            if (!turned && trim > 0)
            {
                return;
            }

            read = Read(log);
            if (!IsOff(log, read))
            {
                return;
            }
        }
    }

    /// <summary>Sets the groomer to the height of cut and reads it.</summary>
    public static void Groomer(UnitLog log)
    {
        if (!log.Unit.Machine.Carries(Attachment.Groomer))
        {
            return;
        }

        var unit = log.Unit;
        unit.GroomerOff = log.Visit.Has(SeededFaultKind.GroomerOffHeight, unit)
            ? -0.6m
            : log.Visit.Chance.Noise(0.05m);
        log.Turn(AdjusterKind.Groomer, Side.Both);
        ReadGroomer(log);
    }

    public static void ReadGroomer(UnitLog log)
    {
        if (!log.Unit.Machine.Carries(Attachment.Groomer))
        {
            return;
        }

        var (unit, gauge) = (log.Unit, log.Visit.HeightGauge);
        log.Measure(
            MeasuredQuantity.GroomerHeight,
            UnitLog.At(StationName.Left),
            unit.HeightLeft + unit.GroomerOff,
            gauge
        );
        log.Measure(
            MeasuredQuantity.GroomerHeight,
            UnitLog.At(StationName.Right),
            unit.HeightRight + unit.GroomerOff,
            gauge
        );
    }

    private static bool IsOff(UnitLog log, (decimal Left, decimal Right) read)
    {
        var most = log.Unit.Kind.TrimAbove;
        var wanted = log.Visit.TargetHeight;
        return Math.Abs(read.Left - wanted) > most || Math.Abs(read.Right - wanted) > most;
    }

    private static decimal Wanted(UnitLog log) => log.Visit.TargetHeight;

    private static bool TurnSides(UnitLog log, decimal left, decimal right)
    {
        if (Math.Abs(left - right) < Finest)
        {
            var both = Turn(log, Side.Both, (left + right) / 2);
            log.Unit.HeightLeft += both + Slip(log, both);
            log.Unit.HeightRight += both + Slip(log, both);
            return both != 0m;
        }

        var (byLeft, byRight) = (Turn(log, Side.Left, left), Turn(log, Side.Right, right));
        log.Unit.HeightLeft += byLeft + Slip(log, byLeft);
        log.Unit.HeightRight += byRight + Slip(log, byRight);
        return byLeft != 0m || byRight != 0m;
    }

    private static decimal Turn(UnitLog log, Side side, decimal by)
    {
        if (Math.Abs(by) < Finest)
        {
            return 0m;
        }

        var isInInches = log.Visit.HeightGauge.Unit is LengthUnit.Inch;
        var amount = isInInches
            ? PrintedLength.Of(decimal.Round(Math.Abs(by) / 25.4m, 3), LengthUnit.Inch).OrThrow()
            : PrintedLength.Of(decimal.Round(Math.Abs(by), 2), LengthUnit.Millimetre).OrThrow();
        if (amount.Value == Length.Zero)
        {
            return 0m;
        }

        log.Turn(
            AdjusterKind.Height,
            side,
            by > 0m ? AdjustDirection.Raise : AdjustDirection.Lower,
            new AdjustmentAmount.Distance(amount)
        );
        return by > 0m ? amount.Value.Millimetres : -amount.Value.Millimetres;
    }

    private static decimal Slip(UnitLog log, decimal turned) =>
        turned == 0m ? 0m : log.Visit.Chance.Noise(0.008m);
}
