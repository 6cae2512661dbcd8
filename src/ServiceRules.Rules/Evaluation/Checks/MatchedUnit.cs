using System.Collections.Immutable;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Bench;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>One unit with the line through its readings, as something that can be moved.</summary>
internal sealed class MatchedUnit
{
    private readonly UnitLimits limits;
    private readonly KnownLine line;
    private readonly Length width;

    private MatchedUnit(
        UnitFrame unit,
        MeasuredQuantity quantity,
        AdjusterKind kind,
        KnownLine line,
        RuleBook book
    )
    {
        Frame = unit;
        Adjuster = kind;
        this.line = line;
        width = StationPlaces.Width(unit.Sheet);
        limits = UnitLimits.Of(unit, quantity, book);
        Middle = Side(line.Fit.Offset);
        LeftEnd = Side(line.Fit.LeftEnd);
        RightEnd = Side(line.Fit.RightEnd);
    }

    public UnitFrame Frame { get; }

    public AdjusterKind Adjuster { get; }

    public DifferenceSide Middle { get; }

    public DifferenceSide LeftEnd { get; }

    public DifferenceSide RightEnd { get; }

    /// <summary>The systems of units whose prints hold it: both where its readings are not all of one.</summary>
    private ImmutableArray<UnitSystem> Systems =>
        line.IsReadInBoth ? [UnitSystem.Metric, UnitSystem.Inch] : [line.System];

    /// <summary>The limit that holds it, of all prints that do.</summary>
    public Length Narrowest(DualPrint print) => Systems.Min(print.In);

    /// <summary>Whether the sheet holds it to the other units of the machine.</summary>
    public bool IsInSet => limits.AcrossUnits is not null;

    /// <summary>Whether a gauge that proves nothing read it, so that no other unit is moved to match it.</summary>
    public bool IsDoubted => LineShape.DoubtOf(line) is not FindingReason.None;

    /// <summary>The units whose line is known on both sides, in the order given.</summary>
    public static ImmutableArray<MatchedUnit> Known(
        IEnumerable<UnitFrame> units,
        MeasuredQuantity quantity,
        RuleBook book
    )
    {
        if (AdjustedQuantity.FinelySetBy(quantity) is not { } kind)
        {
            return [];
        }

        return
        [
            .. units
                .Select(unit => (Unit: unit, Places: UnitPlaces.Of(unit, quantity)))
                // What has to be read again first is not moved before.
                .Where(each => each.Places.Obstacles.IsEmpty)
                // Nor is what no move would bring in, or what nothing proves.
                .Where(each => NoMove.Of(each.Unit, quantity, each.Places, book) is null)
                // Nor is what has to be repaired first.
                .Where(each => !StepInForce.IsBroken(each.Unit, kind))
                .Select(each => (each.Unit, each.Places, Lines: each.Places.Lines().ToList()))
                // A unit that was read blade by blade can only be moved as a whole.
                .Where(each => each.Lines.Count == 1)
                .Where(each => each.Places.Usable.Select(place => place.Blade).Distinct().Count() == 1)
                .Select(each => new MatchedUnit(each.Unit, quantity, kind, each.Lines[0], book))
                .Where(unit => unit.Middle.Knowledge.Middle is not null),
        ];
    }

    /// <summary>What a reading may be off: U, or half the width of an interval.</summary>
    public static Length Doubt(Knowledge known) => (known.AsInterval().Width ?? Length.Zero) * 0.5m;

    /// <summary>The unit as the solver sees it.</summary>
    /// <param name="aim">Where it goes when neither the settings in force nor the sheet name a target.</param>
    public MatchUnit Problem(Length aim)
    {
        var adjuster = Frame.Sheet.Of(Adjuster);
        var (leftAt, rightAt) = (adjuster?.LeftAt?.Value ?? Length.Zero, adjuster?.RightAt?.Value ?? width);
        var (leftEnd, rightEnd) = (Best(LeftEnd.Knowledge), Best(RightEnd.Knowledge));
        var tilt = (rightEnd - leftEnd).Abs;
        var sides = limits.SideToSide is { } print ? Narrowest(print) : (Length?)null;
        var (below, above) = LineShape.Departures(line);
        var (least, most) = (Length.Min(leftEnd, rightEnd) - below, Length.Max(leftEnd, rightEnd) + above);
        return new()
        {
            Left = Best(line.Fit.LineAt(leftAt)),
            Right = Best(line.Fit.LineAt(rightAt)),
            LeftAt = leftAt,
            RightAt = rightAt,
            Width = width,
            Zone = limits.Drawn(DoubtOfNext(below + above), below, above),
            MostTilt = sides is { } widest ? MachineMatch.Guarded(widest, Doubt(line.Fit.Tilt)) : null,
            Target = limits.Target ?? aim,
            MustMove =
                !Systems.All(system => limits.Allow(least, system) && limits.Allow(most, system))
                || tilt > sides,
            IsInSet = IsInSet,
            Moves =
                adjuster?.Step is not null ? MoveKind.BySteps
                : StepInForce.Of(Frame, Adjuster) is not null ? MoveKind.ByParts
                : MoveKind.Freely,
            Part = StepInForce.Of(Frame, Adjuster)?.Step ?? FinestSet(Frame.Sheet.Width.Governing.System),
        };
    }

    /// <summary>
    /// Whether it keeps its own limits by more than its readings may be off: left as it is, it holds the machine all the same where
    /// it does not.
    /// </summary>
    public bool IsProven
    {
        get
        {
            var (below, above) = LineShape.Departures(line);
            var (left, right) = (Best(LeftEnd.Knowledge), Best(RightEnd.Knowledge));
            var doubt = DoubtOfNext(below + above);
            return IsTiltProven
                && Systems.All(system =>
                    limits.Prove(Length.Min(left, right) - below, doubt, system)
                    && limits.Prove(Length.Max(left, right) + above, doubt, system)
                );
        }
    }

    /// <summary>The same of its tilt. A limit too tight for the gauge anyway is not asked.</summary>
    private bool IsTiltProven =>
        limits.SideToSide is not { } print
        || Narrowest(print) is var most
            && Best(line.Fit.Tilt).Abs <= MachineMatch.Guarded(most, Doubt(line.Fit.Tilt));

    // How well a straight line lies through a bow says nothing of the next reading.
    private Length DoubtOfNext(Length bow) =>
        bow > Length.Zero
            ? line.Places.Max(place => Doubt(place.Knowledge!))
            : Length.Max(Doubt(LeftEnd.Knowledge), Doubt(RightEnd.Knowledge));

    /// <summary>The setting as the remedy of one unit.</summary>
    public Remedy.Move Move(MatchSetting setting)
    {
        var (left, right) = (Held(setting.Left), Held(setting.Right));
        return new(Adjuster, left, right, [.. ReadAgain.After(Frame, [Turned()])])
        {
            LeftTurns = ScrewTurns.For(left, Frame, Adjuster),
            RightTurns = ScrewTurns.For(right, Frame, Adjuster),
            LearnedPart = ScrewTurns.LearnedPart(Frame, Adjuster),
        };
    }

    /// <summary>The setting as one of the moves of a machine.</summary>
    public UnitMove UnitMove(MatchSetting setting)
    {
        var (left, right) = (Held(setting.Left), Held(setting.Right));
        return new(Frame.Work.Id.Text, left, right)
        {
            LeftTurns = ScrewTurns.For(left, Frame, Adjuster),
            RightTurns = ScrewTurns.For(right, Frame, Adjuster),
            LearnedPart = ScrewTurns.LearnedPart(Frame, Adjuster),
        };
    }

    private DifferenceSide Side(Knowledge at) => DifferenceSide.Of(Frame.Work.Id.Text, line, at);

    private Adjustment Turned() =>
        new()
        {
            Adjuster = Adjuster,
            Side = Domain.Records.Side.Both,
            Amount = new AdjustmentAmount.NotStated(),
        };

    private static Length Held(Length move) => LimitRemedy.Held(move);

    private static Length Best(Knowledge known) => known.Middle ?? Length.Zero;

    /// <summary>No finer than anyone sets a height: 0.01 mm or 0.0005 in (common practice, no source).</summary>
    private static Length FinestSet(UnitSystem system) =>
        system is UnitSystem.Inch ? Length.FromInches(0.0005m) : Length.FromMillimetres(0.01m);
}
