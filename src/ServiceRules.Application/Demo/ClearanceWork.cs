using ServiceRules.Domain.Records;

namespace ServiceRules.Application.Demo;

/// <summary>Reel to bedknife: how the shop reads it and sets it.</summary>
internal static class ClearanceWork
{
    private static readonly StationName[] BothEnds = [StationName.Left, StationName.Right];

    /// <summary>Turns the reel slowly backwards, listens and feels.</summary>
    public static void Listen(UnitLog log, ReadingPhase? phase = null) =>
        log.Read(
            new()
            {
                Quantity = MeasuredQuantity.Clearance,
                Phase = phase,
                Observed = new Observation.Contact(log.Unit.Contact),
            },
            30
        );

    /// <summary>As found: contact, and feelers up to the first that does not pass.</summary>
    public static void ReadAsFound(UnitLog log)
    {
        Listen(log, ReadingPhase.Found);
        TryFeelers(log, ReadingPhase.Found);
    }

    /// <summary>Sets it as the shop does: to light contact, and from there the shop's clicks open.</summary>
    public static void Set(UnitLog log)
    {
        CloseToContact(log);
        Listen(log, log.Unit.Kind.KeepsContact ? null : ReadingPhase.Between);
        if (!log.Unit.Kind.KeepsContact)
        {
            var clicks = log.Unit.Kind.ClicksFromContact;
            // Somebody lost count.
            var miscounted = log.Visit.Has(SeededFaultKind.ClearanceTooWide, log.Unit) ? 3 : 0;
            for (var click = 0; click < clicks + miscounted; click++)
            {
                Open(log);
            }

            TryFeelers(log, null);
            Listen(log);
        }

        CutPaper(log);
    }

    /// <summary>One click at a time until it touches along the whole width.</summary>
    public static void CloseToContact(UnitLog log)
    {
        var unit = log.Unit;
        var (left, right) = (unit.ClicksToContact(unit.GapLeft), unit.ClicksToContact(unit.GapRight));
        if (left == right && left > 0)
        {
            log.Turn(AdjusterKind.Clearance, Side.Both, AdjustDirection.Close, left);
        }
        else
        {
            Close(log, Side.Left, left);
            Close(log, Side.Right, right);
        }

        unit.TurnClearance(-left, -right);
    }

    /// <summary>Paper at three blades, left, in the middle and right, and the edges by eye.</summary>
    public static void CutPaper(UnitLog log)
    {
        var kind = log.Unit.Kind;
        var third = kind.Blades / 3;
        decimal[] places = [UnitKind.EdgeInset, kind.Width / 2, kind.Width - UnitKind.EdgeInset];
        for (var strip = 0; strip < places.Length; strip++)
        {
            log.Read(
                new()
                {
                    Quantity = MeasuredQuantity.Edge,
                    Station = UnitLog.At(places[strip]),
                    Blade = (strip * third) + log.Visit.Chance.Between(1, third),
                    Observed = new Observation.Paper(PaperResult.Cuts),
                },
                8
            );
        }

        log.See(MeasuredQuantity.Edge, Condition.Sound, 10);
    }

    private static void Open(UnitLog log)
    {
        log.Turn(AdjusterKind.Clearance, Side.Left, AdjustDirection.Open, 1);
        log.Turn(AdjusterKind.Clearance, Side.Right, AdjustDirection.Open, 1);
        log.Unit.TurnClearance(1, 1);
    }

    private static void Close(UnitLog log, Side side, int steps)
    {
        if (steps > 0)
        {
            log.Turn(AdjusterKind.Clearance, side, AdjustDirection.Close, steps);
        }
    }

    private static void TryFeelers(UnitLog log, ReadingPhase? phase)
    {
        if (log.Unit.Kind.KeepsContact)
        {
            return;
        }

        var feelers = log.Visit.Instruments.Feelers(log.Technician);
        foreach (var end in BothEnds)
        {
            var inset = UnitKind.EdgeInset;
            var at = end is StationName.Left ? inset : log.Unit.Kind.Width - inset;
            foreach (var feeler in log.Unit.Kind.Feelers)
            {
                var station = UnitLog.At(end);
                var gap = log.Unit.GapAt(at);
                if (!log.TryFeeler(MeasuredQuantity.Clearance, station, gap, feeler, feelers, phase))
                {
                    break;
                }
            }
        }
    }
}
