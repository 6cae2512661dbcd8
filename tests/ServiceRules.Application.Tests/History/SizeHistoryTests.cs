using ServiceRules.Application.History;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Wear;

namespace ServiceRules.Application.Tests.History;

public sealed class SizeHistoryTests : IDisposable
{
    private readonly Season _season = new();

    public void Dispose() => _season.Dispose();

    private static Reading Diameter(string value) => Season.Read(MeasuredQuantity.ReelDiameter, value);

    private static Length Millimetres(decimal value) => Length.FromMillimetres(value);

    /// <summary>
    /// The readings of F34 of the trade reference: slope -0.0034 mm/h, rounded there. The service limit of the sheet is
    /// 114 mm and the line stands at 125.60 mm at the last hours.
    /// </summary>
    [Fact]
    public void Told_ReadingsOfTheTradeReference_HaveItsSlopeAndADay()
    {
        _season
            .Job("2026-01-05", "0 h", Diameter("127.80 mm"))
            .Job("2026-03-30", "210 h", Diameter("127.12 mm"))
            .Job("2026-06-22", "430 h", Diameter("126.24 mm"))
            .Job("2026-09-14", "650 h", Diameter("125.61 mm"));

        var size = _season.Unit().Of(MeasuredQuantity.ReelDiameter)!;

        Assert.Equal(-0.0034m, decimal.Round(size.Robust!.Slope.MillimetresPerHour, 5));
        Assert.Equal(4, size.Hours);
        Assert.Equal(Millimetres(114m), size.Limit);
        Assert.Equal(Millimetres(11.61m), size.Remaining);
        var reaches = Assert.IsType<WearForecast.Reaches>(size.ByRobust!.Hours);
        // 11.6 mm at 0.0034 mm/h.
        Assert.InRange(reaches.Left.Hours, 3400m, 3430m);
        // 650 h in 252 days are 18.06 h a week: some 189 weeks.
        Assert.Equal(18.06m, decimal.Round(_season.Unit().PerWeek!.Value.Hours, 2));
        Assert.Equal(2030, size.ByRobust.Days!.On.Year);
    }

    [Fact]
    public void Told_TwoReadings_AreTooFewForAForecast()
    {
        _season
            .Job("2026-01-05", "0 h", Diameter("127.80 mm"))
            .Job("2026-03-30", "210 h", Diameter("127.12 mm"));

        var size = _season.Unit().Of(MeasuredQuantity.ReelDiameter)!;

        Assert.Null(size.Robust);
        Assert.Null(size.ByLine);
        Assert.Equal(2, size.Hours);
        Assert.Equal(Millimetres(13.12m), size.Remaining);
    }

    [Fact]
    public void Told_Grind_BeginsAStretchAndSaysWhatOneTakesOff()
    {
        _season
            .Job("2026-01-05", "0 h", Diameter("124.80 mm"))
            .Job("2026-02-02", "100 h", Diameter("124.76 mm"))
            .Job("2026-03-02", "200 h", Season.Spin("124.72 mm", "124.42 mm"), Diameter("124.42 mm"))
            .Job("2026-04-06", "300 h", Diameter("124.37 mm"))
            .Job("2026-05-04", "400 h", Diameter("124.32 mm"));

        var unit = _season.Unit();
        var size = unit.Of(MeasuredQuantity.ReelDiameter)!;

        Assert.Equal([0, 0, 1, 1, 1], size.Points.Select(point => point.Stretch));
        // Since the grind 0.10 mm in 200 h; grinds included the median of ten slopes is steeper.
        Assert.Equal(-0.0005m, size.Running!.Slope.MillimetresPerHour);
        Assert.True(size.Robust!.Slope < size.Running.Slope);
        Assert.Equal(Millimetres(0.30m), size.PerGrind);
        // (124.32 - 114.00) / 0.30 = 34.4.
        Assert.Equal((34, 1), (size.GrindsLeft, size.GrindsSeen));
        Assert.Equal(new DateOnly(2026, 3, 2), unit.Grind!.Since);
        Assert.Equal(200m, unit.Grind.Hours.Hours);
    }

    [Fact]
    public void Told_NewReel_BeginsASeriesOfItsOwn()
    {
        _season
            .Job("2026-01-05", "0 h", Diameter("115.00 mm"))
            .Job("2026-02-02", "100 h", Diameter("114.50 mm"))
            .Job(
                "2026-03-02",
                "200 h",
                unit =>
                    unit with
                    {
                        Reel = "R-2",
                        Entries =
                        [
                            new PartFitted { Part = PartKind.Reel, Identity = "R-2" },
                            Diameter("125.00 mm"),
                        ],
                    }
            );

        var unit = _season.Unit();
        var size = unit.Of(MeasuredQuantity.ReelDiameter)!;

        Assert.Equal("R-2", unit.Reel);
        Assert.Equal(Millimetres(125m), Assert.Single(size.Points).Value);
        var earlier = Assert.Single(unit.Earlier);
        Assert.Equal(
            ("R-1", PartKind.Reel, new DateOnly(2026, 3, 2)),
            (earlier.Part, earlier.Kind, earlier.Until)
        );
    }

    [Fact]
    public void Told_ReelMovedToAnotherUnit_TakesItsHistoryAlong()
    {
        _season
            .Job("2026-01-05", "0 h", Diameter("125.00 mm"))
            .Job(
                "2026-02-02",
                "100 h",
                unit => unit with { Id = new("U-01-2"), Position = 2, Entries = [Diameter("124.90 mm")] }
            );

        var second = _season.Told().Units.Single(unit => unit.Unit.Text == "U-01-2");

        Assert.Equal(
            [Millimetres(125m), Millimetres(124.9m)],
            second.Of(MeasuredQuantity.ReelDiameter)!.Points.Select(point => point.Value)
        );
    }

    [Fact]
    public void Told_HourMeterExchanged_CountsFromThere()
    {
        _season
            .Job("2026-01-05", "5000 h", Diameter("125.00 mm"))
            .Job("2026-02-02", "5100 h", Diameter("124.90 mm"))
            .Job("2026-03-02", "10 h", Diameter("124.80 mm"));

        var size = _season.Unit().Of(MeasuredQuantity.ReelDiameter)!;

        Assert.Equal(new DateOnly(2026, 3, 2), size.JoinedFrom);
        Assert.Single(size.Points);
    }

    /// <summary>The bench job names another machine whose units lay there too: its hours are not this unit's.</summary>
    [Fact]
    public void Told_BenchJobOfAnotherMachine_LeavesItsHoursOut()
    {
        _season
            .Job("2026-01-05", "5000 h", Diameter("125.00 mm"))
            .Job(
                "2026-02-02",
                "12 h",
                unit => unit with { Position = null, Entries = [Diameter("124.90 mm")] },
                record =>
                    record with
                    {
                        Place = WorkPlace.OnBench,
                        Machine = record.Machine with { Id = new("M-09") },
                    }
            )
            .Job("2026-03-02", "5200 h", Diameter("124.80 mm"));

        var unit = _season.Unit();
        var size = unit.Of(MeasuredQuantity.ReelDiameter)!;

        Assert.Equal("M-01", unit.Machine.Text);
        Assert.Null(size.JoinedFrom);
        Assert.Equal([5000m, null, 5200m], size.Points.Select(point => point.Hours?.Hours));
    }

    [Fact]
    public void Told_PastItsLimit_IsTheFirstThingToDo()
    {
        _season.Job("2026-01-05", "0 h", Diameter("113.90 mm"));

        var action = Assert.Single(_season.Told().Actions);

        Assert.Equal((ActionKind.PastLimit, (DateOnly?)null), (action.Kind, action.Due));
        Assert.Equal(Millimetres(-0.10m), action.Size!.Remaining);
    }

    /// <summary>0.2 mm left and 0.3 mm a grind.</summary>
    [Fact]
    public void Told_LessLeftThanAGrindTakes_SaysThatTheNextIsTheLast()
    {
        _season
            .Job("2026-01-05", "0 h", Diameter("114.60 mm"))
            .Job("2026-02-02", "100 h", Season.Spin("114.50 mm", "114.20 mm"), Diameter("114.20 mm"));

        var action = Assert.Single(_season.Told().Actions);

        Assert.Equal(ActionKind.LastGrind, action.Kind);
        Assert.Equal(0, action.Size!.GrindsLeft);
    }

    /// <summary>Falls 1 mm in 100 h and has 1 mm left: 100 h, at 25 h a week four weeks.</summary>
    [Fact]
    public void Told_LimitNear_HasTheDayItComesTo()
    {
        _season
            .Job("2026-01-05", "0 h", Diameter("118.00 mm"))
            .Job("2026-02-02", "100 h", Diameter("117.00 mm"))
            .Job("2026-03-02", "200 h", Diameter("116.00 mm"))
            .Job("2026-03-30", "300 h", Diameter("115.00 mm"));

        var action = Assert.Single(_season.Told().Actions);

        Assert.Equal((ActionKind.Limit, new DateOnly(2026, 4, 27)), (action.Kind, action.Due));
        var line = Assert.IsType<WearForecast.Reaches>(action.Size!.ByLine!.Hours);
        Assert.Equal(100m, decimal.Round(line.Left.Hours, 6));
    }

    /// <summary>F27 of the trade reference: 5.4 mm less 4.8 mm at 0.1 mm a facing are six.</summary>
    [Fact]
    public void Told_BedknifeLip_SaysTheFacingsLeft()
    {
        _season.Job(
            "2026-01-05",
            "0 h",
            new Grinding
            {
                Kind = GrindingKind.BedknifeTop,
                Before = Season.Length("5.5 mm"),
                After = Season.Length("5.4 mm"),
            },
            Season.Read(MeasuredQuantity.BedknifeLip, "5.4 mm")
        );

        var size = _season.Unit().Of(MeasuredQuantity.BedknifeLip)!;

        Assert.Equal((Millimetres(0.6m), 6), (size.Remaining, size.GrindsLeft));
    }

    /// <summary>
    /// F26 of the trade reference: a land of 1.5 mm, 3 mm at most, 30 degrees, leaves 1.73 mm of diameter. After 1.00 mm
    /// of it the land is 1.5 + 0.5/tan 30 = 2.366 mm, and 0.73 mm are left.
    /// </summary>
    [Fact]
    public void Told_DiameterLostSinceTheLandWasRead_CarriesItOn()
    {
        _season
            .Job(
                "2026-01-05",
                "0 h",
                Diameter("124.00 mm"),
                Season.Read(MeasuredQuantity.LandWidth, "1.50 mm")
            )
            .Job("2026-02-02", "100 h", Season.Spin("124.00 mm", "123.00 mm"), Diameter("123.00 mm"));

        var relief = _season.Unit().Relief!;

        Assert.Equal(1.00m, relief.LossSince.Millimetres);
        Assert.Equal(2.366m, decimal.Round(relief.LandNow.Millimetres, 3));
        Assert.Equal(0.73m, decimal.Round(relief.DiameterLeft.Millimetres, 2));
    }

    /// <summary>
    /// The millimetre that went before the land was read is in its 1.50 mm already. Of the next diameter, 122.80 mm,
    /// 0.80 mm went: 1.5 + 0.4/tan 30 = 2.193 mm.
    /// </summary>
    [Theory]
    [InlineData(false, 0, 1.500)]
    [InlineData(true, 0.80, 2.193)]
    public void Told_LandReadWithoutADiameter_CountsFromTheNext(bool later, decimal loss, decimal land)
    {
        _season
            .Job("2026-01-05", "0 h", Diameter("124.00 mm"))
            .Job("2026-02-02", "100 h", Season.Spin("124.00 mm", "123.00 mm"))
            .Job("2026-02-09", "120 h", Season.Read(MeasuredQuantity.LandWidth, "1.50 mm"))
            .Job("2026-03-02", "200 h", Diameter("122.80 mm"));
        if (later)
        {
            _season.Job("2026-04-06", "300 h", Diameter("122.00 mm"));
        }

        var relief = _season.Unit().Relief!;

        Assert.Equal(loss, relief.LossSince.Millimetres);
        Assert.Equal(land, decimal.Round(relief.LandNow.Millimetres, 3));
    }

    [Theory]
    [InlineData("225 h", 25)]
    [InlineData("150 h", -50)]
    public void Told_IntervalStated_SaysHowManyHoursAreLeft(string every, int left)
    {
        _season
            .Job("2026-01-05", "0 h", Season.Spin("124.80 mm", "124.60 mm"), Diameter("124.60 mm"))
            .Job("2026-03-02", "200 h", Diameter("124.59 mm"));

        var unit = _season.Unit(every);

        Assert.Equal(left, unit.Grind!.DueIn!.Value.Hours);
        Assert.Contains(
            _season.Told(every).Actions,
            action => action.Kind == ActionKind.Grind && action.Due is null == left <= 0
        );
    }

    /// <summary>
    /// Falls 1 mm in 100 h and had 1 mm left at 300 h, so 100 h; the diameter was not read at 340 h, where 60 h are left.
    /// The interval of 500 h would leave 160 h.
    /// </summary>
    [Fact]
    public void Told_JobAfterTheLastReading_TakesItsHoursFromThoseToTheLimit()
    {
        _season
            .Job("2026-01-05", "0 h", Diameter("118.00 mm"))
            .Job("2026-02-02", "100 h", Diameter("117.00 mm"))
            .Job("2026-03-02", "200 h", Diameter("116.00 mm"))
            .Job("2026-03-30", "300 h", Diameter("115.00 mm"))
            .Job("2026-04-13", "340 h");

        var grind = _season.Unit("500 h").Grind!;

        Assert.Equal(60m, decimal.Round(grind.DueIn!.Value.Hours, 6));
    }

    /// <summary>
    /// 1 mm in 100 h down to 114.2 mm: at 440 h the line stood 0.2 mm below 114 mm and somebody read 114.3 mm, still above.
    /// </summary>
    [Fact]
    public void Told_LinePastTheLimitAndReadingInside_IsDueNow()
    {
        _season
            .Job("2026-01-05", "0 h", Diameter("118.20 mm"))
            .Job("2026-02-02", "100 h", Diameter("117.20 mm"))
            .Job("2026-03-02", "200 h", Diameter("116.20 mm"))
            .Job("2026-03-30", "300 h", Diameter("115.20 mm"))
            .Job("2026-05-09", "440 h", Diameter("114.30 mm"));

        var told = _season.Told("900 h");

        var size = told.Units[0].Of(MeasuredQuantity.ReelDiameter)!;
        Assert.IsType<WearForecast.Reached>(size.ByRobust!.Hours);
        Assert.Equal(0m, told.Units[0].Grind!.DueIn!.Value.Hours);
        Assert.Contains(told.Actions, action => action is { Kind: ActionKind.Limit, Due: null });
    }

    /// <summary>
    /// 1 mm left and 1 mm in 100 h; 25 h a week. The reading on the bench a month later has no hours and moves no day.
    /// </summary>
    [Fact]
    public void Told_LaterReadingWithoutHours_DoesNotPutTheDayOff()
    {
        _season
            .Job("2026-01-05", "0 h", Diameter("118.00 mm"))
            .Job("2026-02-02", "100 h", Diameter("117.00 mm"))
            .Job("2026-03-02", "200 h", Diameter("116.00 mm"))
            .Job("2026-03-30", "300 h", Diameter("115.00 mm"))
            .Job("2026-04-20", null, unit => unit with { Entries = [Diameter("114.90 mm")] });

        var size = _season.Unit().Of(MeasuredQuantity.ReelDiameter)!;

        Assert.Equal(new DateOnly(2026, 4, 27), size.ByRobust!.Days!.On);
    }

    /// <summary>Paste takes next to nothing off, and a bedknife ground is no reel made sharp.</summary>
    [Fact]
    public void Told_LappedOrBedknifeGround_IsNoGrindOfTheReel()
    {
        _season
            .Job("2026-01-05", "0 h", Season.Spin("124.80 mm", "124.50 mm"), Diameter("124.50 mm"))
            .Job(
                "2026-02-02",
                "100 h",
                Season.Spin("124.45 mm", "124.43 mm") with
                {
                    Kind = GrindingKind.Lapping,
                },
                Diameter("124.43 mm")
            )
            .Job("2026-03-02", "200 h", new Grinding { Kind = GrindingKind.BedknifeTop });

        var unit = _season.Unit();
        var size = unit.Of(MeasuredQuantity.ReelDiameter)!;

        Assert.Equal(new DateOnly(2026, 1, 5), unit.Grind!.Since);
        Assert.Equal(200m, unit.Grind.Hours.Hours);
        Assert.Equal((Millimetres(0.30m), 1), (size.PerGrind, size.GrindsSeen));
    }

    [Fact]
    public void Told_SixEqualReadings_ShowNoWear()
    {
        for (var job = 0; job < 6; job++)
        {
            _season.Job(
                FormattableString.Invariant($"2026-0{job + 1}-05"),
                FormattableString.Invariant($"{job * 97} h"),
                Diameter("125.4 mm")
            );
        }

        var size = _season.Unit().Of(MeasuredQuantity.ReelDiameter)!;

        Assert.IsType<WearForecast.NotApproaching>(size.ByLine!.Hours);
        Assert.IsType<WearForecast.NotApproaching>(size.ByRobust!.Hours);
    }

    /// <summary>A gauge out of its calibration proves nothing, in a history as in a verdict.</summary>
    [Fact]
    public void Told_ReadingWithAnUnfitGauge_IsLeftOut()
    {
        _season.Job("2041-01-05", "0 h", Diameter("113.00 mm"));

        Assert.Empty(_season.Unit().Sizes);
    }
}
