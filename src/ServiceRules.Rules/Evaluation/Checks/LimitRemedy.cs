using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Bench;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>What to do about a quantity that is out of its limits, or not proven.</summary>
internal static class LimitRemedy
{
    public static Remedy? For(
        CheckOutcome outcome,
        MeasuredQuantity quantity,
        Rule rule,
        JobFrame frame,
        UnitFrame unit,
        UnitPlaces places,
        PrintedZone zone
    ) =>
        outcome.Verdict switch
        {
            Verdict.Unproven => LikelyTurned(outcome, quantity, unit, places, zone)
                ?? ToProve(outcome, quantity, frame, unit, places),
            Verdict.NotMet => ToTurn(outcome, quantity, rule, frame, unit, places, zone),
            _ => null,
        };

    /// <summary>
    /// Steps for what lengths put outside without proving it: as of a height, what is more likely out than in is turned. None where the
    /// best value is inside, the gauge could prove the limit nowhere, something has to be read first, or no whole steps do it.
    /// </summary>
    private static Remedy.Turn? LikelyTurned(
        CheckOutcome outcome,
        MeasuredQuantity quantity,
        UnitFrame unit,
        UnitPlaces places,
        PrintedZone zone
    ) =>
        LikelyOut.Is(outcome, places.Obstacles)
        && AdjustedQuantity.FinelySetBy(quantity) is { } kind
        && unit.Sheet.Of(kind)?.Step is not null
        && (AsTaught(quantity, kind, unit, places) ?? StepRemedy.For(quantity, kind, unit, places, zone))
            is Remedy.Turn { Sequence.IsEmpty: false } turn
            ? turn
            : null;

    /// <summary>What another rule moves anyway is not read again first, whatever it is that is not proven.</summary>
    public static Remedy ToProve(
        CheckOutcome outcome,
        MeasuredQuantity quantity,
        JobFrame frame,
        UnitFrame unit,
        UnitPlaces places
    ) =>
        (
            // What was read with a gauge that cannot prove the limit at all is no reason to move anything.
            places.Obstacles.IsEmpty && outcome.Reason is not FindingReason.GaugeCannotProve
                ? (Remedy?)Planned(quantity, frame, unit)
                : null
        ) ?? ReadAgain.For(outcome, quantity, places);

    /// <summary>The move of the plan for the machine, where the quantity is not set in steps.</summary>
    private static Remedy.Move? Planned(MeasuredQuantity quantity, JobFrame frame, UnitFrame unit) =>
        AdjustedQuantity.FinelySetBy(quantity) is { } kind && unit.Sheet.Of(kind)?.Step is null
            ? MachineMatch.For(frame, quantity, unit)?.Of(unit)
            : null;

    private static Remedy ToTurn(
        CheckOutcome outcome,
        MeasuredQuantity quantity,
        Rule rule,
        JobFrame frame,
        UnitFrame unit,
        UnitPlaces places,
        PrintedZone zone
    ) =>
        AdjustedQuantity.FinelySetBy(quantity) is { } kind && unit.Sheet.Of(kind)?.Step is not null
            ? AsTaught(quantity, kind, unit, places) ?? StepRemedy.For(quantity, kind, unit, places, zone)
        : IsOfSeveralBlades(places)
            ? places.Obstacles.IsEmpty ? new Remedy.Act(rule.Advice)
                : new Remedy.ReadAgain(
                    quantity,
                    [.. places.Obstacles.Select(obstacle => obstacle.Place)],
                    BladesApart.NotEveryBlade
                )
        : !places.Usable.IsEmpty && Aim(zone) is { } aim
            ? (Remedy?)Repair(quantity, unit)
                ?? NoMove.Of(unit, quantity, places, frame.Book)
                ?? TooBowed(places, zone)
                ?? (Remedy?)MachineMatch.For(frame, quantity, unit)?.Of(unit)
                ?? Bowed(quantity, unit, places, zone, aim)
                ?? Moving(Moved(quantity, unit, places, aim), outcome, quantity)
                ?? new Remedy.Act(rule.Advice)
        : new Remedy.Act(rule.Advice);

    /// <summary>A line of one blade tells nothing of how far to move what another blade puts out.</summary>
    private static bool IsOfSeveralBlades(UnitPlaces places) =>
        places.Usable.Select(place => place.Blade).Distinct().Count() > 1;

    private static Remedy.Act? Repair(MeasuredQuantity quantity, UnitFrame unit) =>
        AdjustedQuantity.FinelySetBy(quantity) is { } kind ? StepRepair.For(unit, kind) : null;

    /// <summary>
    /// Where the school in force is set by feelers, the answer aims between them: one unit is told one thing to turn, and
    /// what it leads to is what the procedure will accept.
    /// </summary>
    private static Remedy.Turn? AsTaught(
        MeasuredQuantity quantity,
        AdjusterKind kind,
        UnitFrame unit,
        UnitPlaces places
    ) =>
        unit.School is { } school
        && unit.Sheet.Of(quantity)?.Schools.FirstOrDefault(each => each.School == school)
            is { Passes: { } passes, Stops: { } stops }
        && PrintedZone.Of(passes, stops, null) is { } taught
            ? StepRemedy.For(quantity, kind, unit, places, taught) as Remedy.Turn
            : null;

    /// <summary>Where a bow shows, within what its line must lie for all of it to be inside; none where none shows.</summary>
    private static (Length? Least, Length? Most)? RoomForABow(UnitPlaces places, PrintedZone zone)
    {
        if (places.Lines().FirstOrDefault() is not { } line)
        {
            return null;
        }

        var (below, above) = LineShape.Departures(line);
        return below + above > Length.Zero ? (zone.Common.Lower + below, zone.Common.Upper - above) : null;
    }

    private static Remedy.CannotBeTurnedIn? TooBowed(UnitPlaces places, PrintedZone zone) =>
        RoomForABow(places, zone) is var (least, most) && least > most
            ? new(
                NoMove.Bowed,
                $"{LineShape.ReadFirst(places.Lines().First())}grind: a bow cannot be adjusted out"
            )
            : null;

    /// <summary>
    /// A move; where the line through what was read has nothing to move, though something is out, what is out is read again: it
    /// contradicts the rest.
    /// </summary>
    private static Remedy? Moving(Remedy.Move? move, CheckOutcome outcome, MeasuredQuantity quantity) =>
        move is null || !Stays(move)
            ? move
            : new Remedy.ReadAgain(
                quantity,
                [
                    .. outcome
                        .Comparisons.Where(compared =>
                            compared.Verdict is Verdict.NotMet && !compared.IsAtEnd
                        )
                        .Select(compared => compared.Place),
                ],
                "what is out does not agree with what was read at the other places, which are where they should be: moving the unit would put those out"
            );

    private static bool Stays(Remedy.Move move) =>
        (move.Left == Length.Zero || move.LeftTurns is { Parts: 0 })
        && (move.Right == Length.Zero || move.RightTurns is { Parts: 0 });

    /// <summary>
    /// The move that brings all of a bow inside, in distances, since parts of a turn were found to reach no such setting; none
    /// where no bow shows.
    /// </summary>
    private static Remedy.Move? Bowed(
        MeasuredQuantity quantity,
        UnitFrame unit,
        UnitPlaces places,
        PrintedZone zone,
        Length aim
    )
    {
        if (RoomForABow(places, zone) is not var (least, most))
        {
            return null;
        }

        var inside = (least, most) switch
        {
            ({ } from, { } to) when aim < from || aim > to => (from + to) * 0.5m,
            ({ } from, null) when aim < from => from,
            (null, { } to) when aim > to => to,
            _ => aim,
        };
        return Moved(quantity, unit, places, inside) is { } move
            ? move with
            {
                LeftTurns = null,
                RightTurns = null,
                LearnedPart = null,
            }
            : null;
    }

    /// <summary>The distances that bring the line through the readings to a value, at the adjusters of each side.</summary>
    public static Remedy.Move? Moved(MeasuredQuantity quantity, UnitFrame unit, UnitPlaces places, Length aim)
    {
        if (AdjustedQuantity.FinelySetBy(quantity) is not { } kind || places.Usable.IsEmpty)
        {
            return null;
        }

        var adjuster = unit.Sheet.Of(kind);
        var line = places.Lines().FirstOrDefault();
        if (line is null && places.Usable.Select(place => place.Station).Distinct().Count() > 1)
        {
            return null;
        }

        var left = (
            line?.Fit.LineAt(adjuster?.LeftAt?.Value ?? Length.Zero) ?? places.Usable[0].Knowledge!
        ).Middle;
        var right = (
            line?.Fit.LineAt(adjuster?.RightAt?.Value ?? StationPlaces.Width(unit.Sheet))
            ?? places.Usable[^1].Knowledge!
        ).Middle;
        if (left is not { } leftNow || right is not { } rightNow)
        {
            return null;
        }

        var (moveLeft, moveRight) = (Held(aim - leftNow), Held(aim - rightNow));
        return new(kind, moveLeft, moveRight, [.. ReadAgain.After(unit, [Turned(kind)])])
        {
            LeftTurns = ScrewTurns.For(moveLeft, unit, kind),
            RightTurns = ScrewTurns.For(moveRight, unit, kind),
            LearnedPart = ScrewTurns.LearnedPart(unit, kind),
        };
    }

    /// <summary>The target, else the middle of what both prints permit, else the only limit there is.</summary>
    private static Length? Aim(PrintedZone zone) =>
        zone.Target ?? zone.Common.Middle ?? zone.Common.Upper ?? zone.Common.Lower;

    /// <summary>
    /// A distance as it is held: to 1e-9 mm, so that parts of a turn added up leave no trace of their last digits. Far from where
    /// anybody sets; whoever prints it rounds it there.
    /// </summary>
    public static Length Held(Length move) => Length.FromMillimetres(Math.Round(move.Millimetres, 9));

    private static Adjustment Turned(AdjusterKind kind) =>
        new()
        {
            Adjuster = kind,
            Side = Side.Both,
            Amount = new AdjustmentAmount.NotStated(),
        };
}
