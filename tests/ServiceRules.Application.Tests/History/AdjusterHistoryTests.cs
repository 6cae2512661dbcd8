using ServiceRules.Application.History;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;

namespace ServiceRules.Application.Tests.History;

public sealed class AdjusterHistoryTests : IDisposable
{
    private readonly Season _season = new();

    public void Dispose() => _season.Dispose();

    private static Reading Gap(string value) =>
        Season.Read(MeasuredQuantity.Clearance, value, at: StationName.Left);

    /// <summary>Two steps of 0.0127 mm in 100 h before the grind and after it; 100 h more without a turn halve the rate.</summary>
    [Theory]
    [InlineData(false, 100, 1.0)]
    [InlineData(true, 200, 0.5)]
    public void Told_JobWithoutATurn_CountsItsHours(bool unturned, int hours, decimal times)
    {
        _season
            .Job("2026-01-05", "0 h", Season.Spin("124.80 mm", "124.60 mm"))
            .Job("2026-02-02", "100 h", Season.Close(2))
            .Job("2026-03-02", "200 h", Season.Close(2))
            .Job("2026-03-30", "300 h", Season.Close(2))
            .Job("2026-04-06", "310 h", Season.Spin("124.60 mm", "124.40 mm"))
            .Job("2026-05-04", "410 h", Season.Close(2));
        if (unturned)
        {
            _season.Job("2026-06-01", "510 h");
        }

        var takeUp = _season.Unit().TakeUp!;

        Assert.Equal((2m, (decimal)hours), (takeUp.StepsIn, takeUp.Hours.Hours));
        Assert.Equal(times, takeUp.Own!.Times);
    }

    /// <summary>Six steps of 0.0127 mm in 300 h; nothing was closed before, so nothing is usual yet.</summary>
    [Fact]
    public void Told_TakeUpOfTheFirstStretch_HasNothingEarlierToBeHeldAgainst()
    {
        _season
            .Job("2026-01-05", "0 h", Season.Spin("124.80 mm", "124.60 mm"))
            .Job("2026-02-02", "100 h", Season.Close(2))
            .Job("2026-03-02", "200 h", Season.Close(2))
            .Job("2026-03-30", "300 h", Season.Close(2));

        var takeUp = _season.Unit().TakeUp!;

        Assert.Equal((6m, 300m, true), (takeUp.StepsIn, takeUp.Hours.Hours, takeUp.SetAnew));
        Assert.Equal(0.000254m, takeUp.Rate.MillimetresPerHour);
        Assert.Null(takeUp.Own);
        Assert.False(takeUp.IsSignal);
    }

    /// <summary>One step in 100 h three times, then a grind, then five steps in 100 h: 0.05 against a median of 0.01.</summary>
    [Fact]
    public void Told_TakenUpMuchFasterThanBefore_IsASignal()
    {
        _season
            .Job("2026-01-05", "0 h", Season.Close(0 + 1))
            .Job("2026-02-02", "100 h", Season.Close(1))
            .Job("2026-03-02", "200 h", Season.Close(1))
            .Job("2026-03-30", "300 h", Season.Close(1))
            .Job("2026-04-06", "310 h", Season.Spin("124.80 mm", "124.60 mm"))
            .Job("2026-05-04", "410 h", Season.Close(5));

        var told = _season.Told();

        var takeUp = told.Units[0].TakeUp!;
        Assert.True(takeUp.IsSignal);
        Assert.Equal(5m, takeUp.StepsIn);
        Assert.Contains(told.Actions, action => action is { Kind: ActionKind.TakenUpFast, Due: null });
    }

    /// <summary>Steps turned while the unit is set anew after a grind say nothing of wear.</summary>
    [Fact]
    public void Told_StepsAtAGrind_AreNotTakeUp()
    {
        _season
            .Job("2026-01-05", "0 h", Season.Close(1))
            .Job("2026-02-02", "100 h", Season.Spin("124.80 mm", "124.60 mm"), Season.Close(20))
            .Job("2026-03-02", "200 h", Season.Close(1));

        Assert.Equal(1m, _season.Unit().TakeUp!.StepsIn);
    }

    /// <summary>Two neighbours take 1 step in 100 h, this one 4: four times.</summary>
    [Fact]
    public void Told_OneUnitTakenUpFasterThanItsNeighbours_IsTheOddOneOut()
    {
        ServiceRecord All(ServiceRecord record, int odd, int others) =>
            record with
            {
                Units = [Unit(record, 1, others), Unit(record, 2, odd), Unit(record, 3, others)],
            };

        static UnitWork Unit(ServiceRecord record, int position, int steps) =>
            record.Units[0] with
            {
                Id = new(FormattableString.Invariant($"U-01-{position}")),
                Reel = FormattableString.Invariant($"R-{position}"),
                Position = position,
                Entries = [Season.Close(steps)],
            };

        _season
            .Job("2026-01-05", "0 h", unit => unit, record => All(record, 1, 1))
            .Job("2026-02-02", "100 h", unit => unit, record => All(record, 4, 1));

        var units = _season.Told().Units;

        Assert.Equal([null, 4m, null], units.Select(unit => unit.TakeUp!.OddOne));
    }

    /// <summary>Two steps close by 0.012 mm each time, so 0.006 mm a step of 0.0127 mm stated: about half.</summary>
    [Fact]
    public void Told_StepsThatDoHalf_AreLearnedOverJobsAndTold()
    {
        for (var job = 0; job < 4; job++)
        {
            _season.Job(
                FormattableString.Invariant($"2026-0{job + 1}-05"),
                FormattableString.Invariant($"{job * 100} h"),
                Gap("0.180 mm"),
                Season.Close(10),
                Gap("0.120 mm")
            );
        }

        var told = _season.Told();

        var step = told.Units[0].Steps.Single(one => one.Quantity == MeasuredQuantity.Clearance);
        Assert.Equal((4, 4, StepAnswer.MovesLess), (step.Trials, step.Jobs, step.Answer));
        Assert.Equal(Length.FromMillimetres(0.0127m), step.Stated);
        Assert.Contains(told.Actions, action => action.Kind == ActionKind.Step);
    }

    /// <summary>
    /// Eight steps opened raise the height by 0.06 mm, so 0.0075 mm a step, and the sheet allows 0.01016 mm; by 0.24 mm
    /// it is 0.03 mm, too much.
    /// </summary>
    [Theory]
    [InlineData("3.86 mm", StepAnswer.Agrees)]
    [InlineData("4.04 mm", StepAnswer.MovesMore)]
    public void Told_HeightCarriedAlongByClearance_IsLearnedOverJobs(string after, StepAnswer answer)
    {
        for (var job = 0; job < 3; job++)
        {
            _season.Job(
                FormattableString.Invariant($"2026-0{job + 1}-05"),
                FormattableString.Invariant($"{job * 100} h"),
                Season.Read(MeasuredQuantity.HeightOfCut, "3.80 mm", at: StationName.Left),
                Season.Close(8) with
                {
                    Direction = AdjustDirection.Open,
                },
                Season.Read(MeasuredQuantity.HeightOfCut, after, at: StationName.Left)
            );
        }

        var step = _season
            .Unit()
            .Steps.Single(one =>
                one is { Adjuster: AdjusterKind.Clearance, Quantity: MeasuredQuantity.HeightOfCut }
            );

        Assert.Equal((true, 3, answer), (step.IsCarried, step.Trials, step.Answer));
    }

    /// <summary>F29 of the trade reference: 1.5 mm and 2.5 mm of diameter gone make 2.75 mm.</summary>
    [Theory]
    [InlineData("2.75 mm", true, false)]
    [InlineData("1.50 mm", false, true)]
    [InlineData("2.00 mm", false, false)]
    public void Told_ShieldGapAfterWear_FollowsOrNot(string later, bool follows, bool copied)
    {
        _season
            .Job(
                "2026-01-05",
                "0 h",
                Season.Read(MeasuredQuantity.ReelDiameter, "127.00 mm"),
                Season.Read(MeasuredQuantity.ShieldGap, "1.50 mm", at: StationName.Left)
            )
            .Job(
                "2026-06-05",
                "900 h",
                Season.Read(MeasuredQuantity.ReelDiameter, "124.50 mm"),
                Season.Read(MeasuredQuantity.ShieldGap, later, at: StationName.Left)
            );

        var shield = _season.Unit().Shield!;

        Assert.Equal(Length.FromMillimetres(2.75m), shield.Expected);
        Assert.Equal((follows, copied), (shield.Follows, shield.LooksCopied));
    }

    [Fact]
    public void Told_ShieldSetAnewInBetween_IsNotHeldAgainstTheOldSetting()
    {
        var moved = new Adjustment
        {
            Adjuster = AdjusterKind.Shield,
            Side = Side.Both,
            Amount = new AdjustmentAmount.NotStated(),
        };
        _season
            .Job(
                "2026-01-05",
                "0 h",
                Season.Read(MeasuredQuantity.ReelDiameter, "127.00 mm"),
                Season.Read(MeasuredQuantity.ShieldGap, "1.50 mm", at: StationName.Left)
            )
            .Job(
                "2026-06-05",
                "900 h",
                Season.Read(MeasuredQuantity.ReelDiameter, "124.50 mm"),
                moved,
                Season.Read(MeasuredQuantity.ShieldGap, "1.50 mm", at: StationName.Left)
            );

        Assert.Null(_season.Unit().Shield);
    }

    /// <summary>The new reel is 3 mm larger than the worn one: its gap of 1.50 mm was set to it, nothing has moved.</summary>
    [Fact]
    public void Told_ShieldGapReadAtANewReel_IsNotCountedFromTheOldReelsDiameter()
    {
        _season
            .Job(
                "2026-01-05",
                "0 h",
                Season.Read(MeasuredQuantity.ReelDiameter, "124.00 mm"),
                Season.Read(MeasuredQuantity.ShieldGap, "1.50 mm", at: StationName.Left)
            )
            .Job(
                "2026-02-02",
                "100 h",
                new PartFitted { Part = PartKind.Reel, Identity = "R-2" },
                Season.Read(MeasuredQuantity.ShieldGap, "1.50 mm", at: StationName.Left)
            )
            .Job(
                "2026-03-02",
                "200 h",
                unit =>
                    unit with
                    {
                        Reel = "R-2",
                        Entries =
                        [
                            Season.Read(MeasuredQuantity.ReelDiameter, "127.00 mm"),
                            Season.Read(MeasuredQuantity.ShieldGap, "1.50 mm", at: StationName.Left),
                        ],
                    }
            );

        Assert.Null(_season.Unit().Shield);
    }
}
