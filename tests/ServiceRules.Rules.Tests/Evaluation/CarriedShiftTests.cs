using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Records;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;
using static ServiceRules.Rules.Tests.Evaluation.Sample;

namespace ServiceRules.Rules.Tests.Evaluation;

/// <summary>
/// Sheet: a clearance step shifts the height by 0.010 mm at most. Gauge: of each reading u = 0.0065065 mm, of which
/// √(0.01²/12 + 0.003²) = 0.0041633 mm stays in a difference; over two steps U = 2·0.0041633·√2/2 = 0.00589 mm a step.
/// </summary>
public class CarriedShiftTests
{
    private static BenchEntry[] Read(string height) => [Height("left", height), Height("right", height)];

    private static BenchEntry[] Turned(string before, int steps, string after) =>
        [.. Read(before), Open(Side.Both, steps), .. Read(after), Open(Side.Both, 1)];

    private static JobFrame Job(string before, int steps, string after) =>
        Frame(Turned(before, steps, after));

    private static decimal CarriedDoubt(JobFrame frame)
    {
        var place = Left(frame, MeasuredQuantity.HeightOfCut, 51);
        Assert.Equal(KnownState.Carried, place.State);
        return ((MeasuredValue)place.Knowledge!).Uncertainty.Value.Millimetres;
    }

    /// <summary>No shift, within 0.00589 mm a step: √(0.0065065² + 0.00589²/3) = 0.00734; by the sheet it would be 0.0087.</summary>
    [Fact]
    public void Build_ReadingsThatTellASmallerShift_CarryWithThat() =>
        Assert.InRange(CarriedDoubt(Job("4.02 mm", 2, "4.02 mm")), 0.00734m, 0.00735m);

    /// <summary>0.05 mm a step within 0.0059: √(0.0065065² + 0.0559²/3) = 0.0329.</summary>
    [Fact]
    public void Build_ReadingsThatProveALargerShift_CarryWithThat() =>
        Assert.InRange(CarriedDoubt(Job("4.00 mm", 2, "4.10 mm")), 0.0329m, 0.0330m);

    /// <summary>One step: no shift within 0.0118 mm, which tells nothing that the sheet does not: √(0.0065065² + 0.010²/3).</summary>
    [Fact]
    public void Build_ReadingsTooCoarseToTell_CarryByTheSheet()
    {
        var frame = Job("4.02 mm", 1, "4.02 mm");

        Assert.Equal(0.0086988m, CarriedDoubt(frame));
        Assert.Empty(frame.Units[0].ShiftsLearned);
    }

    /// <summary>Turned back in between, or by an amount that nobody noted: no clean trial.</summary>
    [Fact]
    public void Build_NoCleanTrial_CarriesByTheSheet()
    {
        var frame = Frame(
            Height("left", "4.02 mm"),
            Open(Side.Both, 1),
            Steps(AdjusterKind.Clearance, Side.Both, AdjustDirection.Close, 1),
            Height("left", "4.02 mm"),
            Open(Side.Both, 1)
        );

        Assert.Equal(0.0086988m, CarriedDoubt(frame));
    }

    /// <summary>
    /// What a gauge that proves nothing tells of the shift counts for its own readings, which prove nothing met, and for no
    /// others: a breach stays one whatever the gauge. 2 steps count 1.8 there: 0.00654 mm a step, √(0.0065065² + 0.00654²/3).
    /// </summary>
    [Fact]
    public void Build_TrialsOfAnUnfitGauge_CountForItsOwnReadingsAlone()
    {
        var unfit = Instruments[0] with { Id = new("HG-02"), Inspection = new(Day, Condition.Faulty) };
        JobFrame With(BenchEntry[] entries) =>
            FrameBuilder.Build(
                Record(Unit(entries)) with
                {
                    Instruments = [.. Instruments, unfit],
                },
                Context,
                Book()
            );
        BenchEntry[] trial =
        [
            Height("left", "4.02 mm", "HG-02"),
            Open(Side.Left, 2),
            Height("left", "4.02 mm", "HG-02"),
        ];

        var own = With([.. trial, Open(Side.Left, 1)]);
        var other = With([.. trial, Height("right", "4.02 mm"), Open(Side.Both, 1)]);

        Assert.InRange(CarriedDoubt(own), 0.00752m, 0.00753m);
        Assert.Equal(
            0.0086988m,
            ((MeasuredValue)Left(other, MeasuredQuantity.HeightOfCut, 459).Knowledge!)
                .Uncertainty
                .Value
                .Millimetres
        );
        Assert.Empty(other.Units[0].ShiftsLearned);
    }

    /// <summary>Each station tells of its own side: 0.0059 mm a step. One step tells nothing.</summary>
    [Fact]
    public void Evaluate_CarriedWithALearnedShift_SaysSo()
    {
        var onTarget = new Check.LimitOnQuantity(
            MeasuredQuantity.HeightOfCut,
            LimitSource.SettingOrder,
            CheckedPlaces.StationsAndEnds
        );

        var learned = Judge(
            onTarget,
            Frame([.. Read("4.02 mm"), Open(Side.Both, 2), .. Read("4.02 mm"), Open(Side.Both, 1)])
        );
        var stated = Judge(onTarget, Frame([.. Turned("4.02 mm", 1, "4.02 mm")]));

        Assert.Equal(
            "a step of the clearance adjuster on either side is counted as 0.0059 mm at most either way, as read before and after steps of "
                + "this job; the sheet says 0.01 mm",
            Assert.Single(learned.Notices)
        );
        Assert.Empty(stated.Notices);
    }

    private static BenchEntry[] Trial(Side side, int steps, string before, string after)
    {
        var station = side is Side.Right ? "right" : "left";
        return [Height(station, before), Open(side, steps), Height(station, after)];
    }

    private static decimal DoubtAfter(Side turned, params BenchEntry[] before) =>
        CarriedDoubt(Frame([.. before, Open(turned, 1)]));

    /// <summary>
    /// 0.04 mm over 0.9 steps: 0.0444 within 0.0131 mm a step, so 0.05753: √(0.0065065² + 0.05753²/3) = 0.03385. What the other
    /// side tells, before or after, takes nothing from it; a further left reading leaves 0.05753/√3 = 0.0332 at least.
    /// </summary>
    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void Build_ShiftProvenLargerOnOneSide_IsNotForgottenForTheOther(bool otherFirst)
    {
        var right = Trial(Side.Right, 1, "4.02 mm", "4.06 mm");
        var left = Trial(Side.Left, 2, "4.02 mm", "4.02 mm");
        BenchEntry[] trials = otherFirst
            ? [.. left, .. right, Height("left", "4.02 mm")]
            : [.. right, .. left];

        Assert.InRange(DoubtAfter(Side.Right, trials), 0.0332m, 0.0339m);
        Assert.InRange(DoubtAfter(Side.Both, trials), 0.0332m, 0.0339m);
    }

    /// <summary>The left side is freed by its own trial, 0.00654 mm a step; the right one, never tried, is not.</summary>
    [Fact]
    public void Build_ShiftToldOfOneSide_LeavesTheOtherToTheSheet()
    {
        var trial = Trial(Side.Left, 2, "4.02 mm", "4.02 mm");

        Assert.InRange(DoubtAfter(Side.Left, trial), 0.00752m, 0.00753m);
        Assert.Equal(0.0086988m, DoubtAfter(Side.Right, trial));
        Assert.Equal(0.0086988m, DoubtAfter(Side.Both, trial));
    }

    /// <summary>Both turned, read at the left alone: nobody saw what the right one does.</summary>
    [Fact]
    public void Build_BothTurnedAndOneStationRead_TellsOfThatSideAlone()
    {
        var trial = Trial(Side.Both, 2, "4.02 mm", "4.02 mm");

        Assert.InRange(DoubtAfter(Side.Left, trial), 0.00734m, 0.00735m);
        Assert.Equal(0.0086988m, DoubtAfter(Side.Right, trial));
    }

    /// <summary>
    /// Trials of one side that exclude one another, 0 and 0.0444 mm a step within 0.0131: the largest that any admits, 0.0575,
    /// and not the sheet's because their mean proves nothing.
    /// </summary>
    [Fact]
    public void Build_TrialsOfOneSideThatDiffer_CarryWithTheLargestThatAnyAdmits() =>
        Assert.InRange(
            DoubtAfter(
                Side.Right,
                [
                    .. Trial(Side.Right, 1, "4.02 mm", "4.02 mm"),
                    Open(Side.Right, 1),
                    .. Trial(Side.Right, 1, "4.02 mm", "4.06 mm"),
                    Height("left", "4.02 mm"),
                ]
            ),
            0.0338m,
            0.0339m
        );

    /// <summary>Read at mid-width both sides are one sum: it frees neither, and proven larger it may be of either.</summary>
    [Fact]
    public void Build_BothTurnedAndTheMiddleRead_FreesNoSide()
    {
        BenchEntry[] Middle(string after) =>
            [
                Height("middle", "4.02 mm"),
                Open(Side.Both, 2),
                Height("middle", after),
                Height("left", "4.02 mm"),
            ];

        Assert.Equal(0.0086988m, DoubtAfter(Side.Left, Middle("4.02 mm")));
        Assert.InRange(DoubtAfter(Side.Left, Middle("4.12 mm")), 0.0329m, 0.0330m);
        Assert.InRange(DoubtAfter(Side.Right, Middle("4.12 mm")), 0.0329m, 0.0330m);
    }

    /// <summary>
    /// Left turned between two readings, then the right by as much: both may have shifted by the same, and are two lengths all the
    /// same, since something was turned between them.
    /// </summary>
    [Fact]
    public void Build_ReadBeforeAndAfterATurnThatALaterOneEquals_IsNoContradiction()
    {
        var frame = Frame(
            Height("left", "4.000 mm"),
            Open(Side.Left, 2),
            Height("left", "4.020 mm"),
            Open(Side.Right, 2)
        );

        var place = Left(frame, MeasuredQuantity.HeightOfCut, 51);

        Assert.Equal(KnownState.Carried, place.State);
        Assert.Equal(Mm(4.02m), ((MeasuredValue)place.Knowledge!).Value);
    }
}
