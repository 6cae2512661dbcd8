using ServiceRules.Application.Due;
using ServiceRules.Application.Library;
using ServiceRules.Application.Tests.Filed;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;

namespace ServiceRules.Application.Tests.Due;

public sealed class DueOfRecordsTests
{
    private static SiteRegisters Site => new() { Name = "Birch Hollow", Zone = RecordFiles.Rules.Site!.Zone };

    [Fact]
    public void Calibration_OfSeveralRecords_IsTheLatestWhateverTheirOrder()
    {
        ServiceRecord[] records =
        [
            Job("J-1", "2026-03-01", Gauge("G-1", "2025-01-10", "2026-01-10")),
            Job("J-2", "2026-03-02", Gauge("G-1", "2026-02-10", "2027-02-10")),
            Job("J-3", "2026-03-03", Gauge("G-1", "2025-01-10", "2026-01-10"), Gauge("G-2", null, null)),
        ];

        foreach (var order in new[] { records, [.. records.Reverse()] })
        {
            var told = Assert.Single(Of(Site, order));

            Assert.Equal((DueKind.Calibration, "G-1", "J-2"), (told.Kind, told.Subject, told.Record));
            Assert.Equal((new DateOnly(2027, 2, 10), DueSource.Record), (told.Due, told.Source));
            Assert.False(told.IsForecast || told.IsReached);
        }
    }

    [Fact]
    public void Calibration_ThatClaimsTenYears_IsDueAfterFive()
    {
        var told = Assert.Single(
            Of(Site, Job("J-1", "2026-03-01", Gauge("G-1", "2026-02-10", "2036-02-10")))
        );

        Assert.Equal(new DateOnly(2031, 2, 10), told.Due);
    }

    [Fact]
    public void Calibration_OfAGaugeThatTheRegisterDoesNotHave_IsNotToldWhereItHasAny()
    {
        var known = RecordFiles.Rules.Site!.Instruments.Single(one => one.Id.Text == "HG-01");
        var job = Job(
            "J-1",
            "2026-03-01",
            Gauge("G-1", "2026-02-10", "2027-02-10"),
            Gauge("HG-01", "2026-02-10", "2027-02-10")
        );

        Assert.Equal("HG-01", Assert.Single(Of(Site with { Instruments = [known] }, job)).Subject);
        Assert.Equal(2, Of(Site, job).Count);
    }

    [Fact]
    public void Wear_OfAReelThatComesToItsLimit_IsAForecastAndThenReached()
    {
        // The service limit of the sheet is 114 mm: 1 mm in 100 h, 100 h in ten weeks.
        ServiceRecord[] coming =
        [
            Worn("J-1", "2026-01-05", "0 h", "118.00 mm"),
            Worn("J-2", "2026-03-16", "100 h", "117.00 mm"),
            Worn("J-3", "2026-05-25", "200 h", "116.00 mm"),
        ];

        var forecast = Assert.Single(Of(Site, coming), thing => thing.Kind is DueKind.Wear);

        Assert.Equal(("U-01-1", "reel-diameter", "R-1"), (forecast.Subject, forecast.About, forecast.Part));
        Assert.Equal(
            ("M-01", "J-3", DueSource.History),
            (forecast.Machine, forecast.Record, forecast.Source)
        );
        Assert.True(forecast.IsForecast && !forecast.IsReached);
        // 2 mm left are 200 h, which are twenty weeks.
        Assert.InRange(forecast.Due, new DateOnly(2026, 10, 5), new DateOnly(2026, 10, 19));

        var reached = Assert.Single(
            Of(Site, [.. coming, Worn("J-4", "2026-10-26", "420 h", "113.80 mm")]),
            thing => thing.Kind is DueKind.Wear
        );

        Assert.True(reached.IsReached && !reached.IsForecast);
        Assert.Equal((new DateOnly(2026, 10, 26), "J-4"), (reached.Due, reached.Record));
        Assert.True(reached.IsWithin(new(2026, 1, 1), 0) && reached.IsOverdue(new(2026, 1, 1)));
    }

    [Fact]
    public void Wear_OfAUnitOfAMachineThatTheRegisterDoesNotHave_IsNotToldWhereItHasAny()
    {
        var other = RecordFiles.Rules.Site!.Machines.Single(machine => machine.Id.Text == "M-02");

        Assert.DoesNotContain(
            Of(Site with { Machines = [other] }, Worn("J-1", "2026-01-05", "0 h", "113.00 mm")),
            thing => thing.Kind is DueKind.Wear
        );
    }

    [Fact]
    public void ToldAs_OfAForecast_StaysWithinItsMonthAndOfADayDoesNot()
    {
        var wear = new DueThing("Birch Hollow", DueKind.Wear, "U-01-1", new(2026, 10, 5), DueSource.History)
        {
            About = "reel-diameter",
            Part = "R-1",
            IsForecast = true,
        };
        var gauge = new DueThing(
            "Birch Hollow",
            DueKind.Calibration,
            "HG-01",
            new(2026, 10, 5),
            DueSource.Record
        );

        Assert.Equal(wear.ToldAs, (wear with { Due = new(2026, 10, 19), Record = "J-9" }).ToldAs);
        Assert.NotEqual(wear.ToldAs, (wear with { Due = new(2026, 11, 1) }).ToldAs);
        Assert.NotEqual(wear.ToldAs, (wear with { Part = "R-2" }).ToldAs);
        Assert.NotEqual(wear.ToldAs, (wear with { IsReached = true, IsForecast = false }).ToldAs);
        Assert.NotEqual(gauge.ToldAs, (gauge with { Due = new(2026, 10, 6) }).ToldAs);
        Assert.NotEqual(gauge.ToldAs, (gauge with { Site = "Cedar Bank" }).ToldAs);
        Assert.Equal(gauge.ToldAs, (gauge with { Record = "J-9" }).ToldAs);
    }

    private static List<DueThing> Of(SiteRegisters site, params ServiceRecord[] records)
    {
        var told = new DueOfRecords(site, RecordFiles.Rules.Book);
        foreach (var record in records)
        {
            told.Add(record);
        }

        return [.. told.Told()];
    }

    private static Instrument Gauge(string id, string? date, string? due) =>
        new()
        {
            Id = new(id),
            Kind = InstrumentKind.Calliper,
            Resolution = PrintedLength.Parse("0.01 mm").OrThrow(),
            Calibration =
                date is null || due is null
                    ? null
                    : new(
                        DateOnly.Parse(date, null),
                        DateOnly.Parse(due, null),
                        PrintedLength.Parse("0.010 mm").OrThrow(),
                        2
                    ),
        };

    private static ServiceRecord Worn(string id, string day, string hours, string diameter)
    {
        var job = Job(id, day, Gauge("C-1", "2025-12-01", "2027-12-01"));
        return job with
        {
            Machine = job.Machine with { Hours = OperatingHours.Parse(hours).OrThrow() },
            Units =
            [
                job.Units[0] with
                {
                    Entries =
                    [
                        new Reading
                        {
                            Quantity = MeasuredQuantity.ReelDiameter,
                            Observed = new Observation.Measured(PrintedLength.Parse(diameter).OrThrow()),
                            Instrument = new("C-1"),
                        },
                    ],
                },
            ],
        };
    }

    private static ServiceRecord Job(string id, string day, params Instrument[] gauges) =>
        new()
        {
            Id = new(id),
            Date = DateOnly.Parse(day, null),
            Machine = new(new("M-01"), "golf-greens", null),
            Tasks = [ServiceTask.FullService],
            People = [new(new("tech-01"), JobRole.Performs)],
            Instruments = [.. gauges],
            Units =
            [
                new()
                {
                    Id = new("U-01-1"),
                    Reel = "R-1",
                    Bedknife = "B-1",
                    Position = 1,
                    Sheet = "reel-125-9-510",
                    Entries = [],
                },
            ],
        };
}
