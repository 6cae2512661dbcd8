using ServiceRules.Domain.Records;

namespace ServiceRules.Application.Demo;

/// <summary>The short jobs: daily check, height check and change, touch-up, and a blockage.</summary>
internal static class ShortWork
{
    // Inside the limit of 0.13 mm, and nearer to it than the gauge can tell.
    private const decimal NearLimit = 0.122m;

    /// <summary>Reel turned slowly backwards, edges; a unit that keeps contact is closed until it touches again.</summary>
    public static void DailyCheck(UnitLog log)
    {
        var unit = log.Unit;
        if (log.Visit.Has(SeededFaultKind.HeavyContact, unit))
        {
            unit.SetGap(-0.06m, -0.05m);
        }
        else if (log.Visit.Has(SeededFaultKind.ContactLost, unit))
        {
            unit.SetGap(0.02m, 0.03m);
        }

        ClearanceWork.Listen(log);
        if (unit.Kind.KeepsContact && unit.Contact is not ContactState.Light && log.Visit.Plan.Fault is null)
        {
            ClearanceWork.CloseToContact(log);
            ClearanceWork.Listen(log);
        }

        log.See(MeasuredQuantity.Edge, Condition.Sound);
    }

    /// <summary>Both ends on the gauge bar, and what is off is trimmed.</summary>
    public static void HeightCheck(UnitLog log)
    {
        if (log.Visit.Plan.Oddity is OddityKind.LetOutBySecondPerson)
        {
            log.Unit.HeightLeft = log.Unit.HeightRight = log.Visit.TargetHeight + NearLimit;
            HeightWork.Read(log);
        }
        else if (PutOff(log))
        {
            HeightWork.Read(log);
        }
        else
        {
            HeightWork.BringToTarget(log, always: false);
        }
    }

    public static void HeightChange(UnitLog log) => HeightWork.BringToTarget(log, always: true);

    /// <summary>The clearance set again; where the bedknife moves, the height follows.</summary>
    public static void TouchUp(UnitLog log)
    {
        var isRushed = log.Visit.Has(SeededFaultKind.HeightReadBeforeClearance, log.Unit);
        log.Unit.SettleForClicks(log.Visit.Chance);
        ClearanceWork.ReadAsFound(log);
        if (isRushed)
        {
            HeightWork.Read(log);
        }

        ClearanceWork.Set(log);
        if (log.Unit.Kind.HasMovingBedknife && !isRushed)
        {
            HeightWork.Trim(log, HeightWork.Read(log));
            HeightWork.Groomer(log);
        }
    }

    /// <summary>After the blockage is out: does it still touch or clear as it should, and are the edges whole?</summary>
    public static void AfterBlockage(UnitLog log) => DailyCheck(log);

    /// <summary>Puts heights where a seeded fault wants them, and tells whether it did.</summary>
    private static bool PutOff(UnitLog log)
    {
        var (unit, visit) = (log.Unit, log.Visit);
        var (left, right) = visit.Plan.Fault switch
        {
            SeededFaultKind.HeightOffTarget when unit.Position == visit.Plan.FaultyPosition => (0.35m, 0.34m),
            SeededFaultKind.UnitTilted when unit.Position == visit.Plan.FaultyPosition => (0.075m, -0.075m),
            SeededFaultKind.SpreadAcrossUnits => Spread(unit.Position),
            SeededFaultKind.AdjacentEndsStep => Stepped(unit.Position),
            _ => (0m, 0m),
        };
        if (
            visit.Plan.Fault
            is not (
                SeededFaultKind.HeightOffTarget
                or SeededFaultKind.UnitTilted
                or SeededFaultKind.SpreadAcrossUnits
                or SeededFaultKind.AdjacentEndsStep
            )
        )
        {
            return false;
        }

        unit.HeightLeft = visit.TargetHeight + left;
        unit.HeightRight = visit.TargetHeight + right;
        return true;
    }

    private static (decimal, decimal) Spread(int position) =>
        position switch
        {
            1 => (0.090m, 0.090m),
            2 => (0m, 0m),
            _ => (-0.090m, -0.090m),
        };

    private static (decimal, decimal) Stepped(int position) =>
        position switch
        {
            2 => (0.115m, 0.285m),
            3 => (-0.285m, -0.115m),
            _ => (0m, 0m),
        };
}
