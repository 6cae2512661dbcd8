using System.Collections.Immutable;
using ServiceRules.Application.History;
using ServiceRules.Application.Tests.Filed;
using ServiceRules.Domain;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Formats.Records;
using ServiceRules.Rules.Model;

namespace ServiceRules.Application.Tests.History;

/// <summary>A few records of one kind of unit, 125 mm reel, told as a history.</summary>
internal sealed class Season : IDisposable
{
    public static readonly Id<UnitWork> Usual = new("U-01-1");

    private readonly RecordFiles files = new();
    private int count;

    public void Dispose() => files.Dispose();

    public static PrintedLength Length(string text) => PrintedLength.Parse(text).OrThrow();

    /// <summary>A gauge good for about 0.01 mm, calibrated for the seasons of the tests: no certificate counts beyond five years.</summary>
    public static Instrument Gauge(
        string id,
        string? zero = null,
        InstrumentKind kind = InstrumentKind.HeightGauge
    ) =>
        new()
        {
            Id = new(id),
            Kind = kind,
            Resolution = Length("0.01 mm"),
            Calibration = new(new(2025, 12, 1), new(2028, 12, 1), Length("0.010 mm"), 2),
            ZeroCheck = zero is null ? null : new(Length(zero), null),
        };

    /// <summary>Of the gauges of a job the one whose kind reads the quantity.</summary>
    private static string Reads(MeasuredQuantity quantity) =>
        quantity switch
        {
            MeasuredQuantity.HeightOfCut => "G-1",
            MeasuredQuantity.Clearance => "D-1",
            _ => "C-1",
        };

    public static Reading Read(
        MeasuredQuantity quantity,
        string value,
        string? with = null,
        StationName? at = null
    ) =>
        new()
        {
            Quantity = quantity,
            Observed = new Observation.Measured(Length(value)),
            Instrument = new(with ?? Reads(quantity)),
            Station = at is { } name ? new Station.Named(name) : null,
        };

    public static Adjustment Close(int steps) =>
        new()
        {
            Adjuster = AdjusterKind.Clearance,
            Side = Side.Both,
            Direction = AdjustDirection.Close,
            Amount = new AdjustmentAmount.Steps(steps),
        };

    public static Grinding Spin(string before, string after) =>
        new()
        {
            Kind = GrindingKind.ReelSpin,
            Before = Length(before),
            After = Length(after),
        };

    public Season Job(string day, string hours, params BenchEntry[] entries) =>
        Job(day, hours, unit => unit with { Entries = [.. entries] });

    public Season Job(
        string day,
        string? hours,
        Func<UnitWork, UnitWork> work,
        Func<ServiceRecord, ServiceRecord>? with = null
    )
    {
        count++;
        var record = new ServiceRecord
        {
            Id = new(FormattableString.Invariant($"J-{count:000}")),
            Date = DateOnly.ParseExact(day, "yyyy-MM-dd", null),
            Machine = new(
                new("M-01"),
                "golf-greens",
                hours is null ? null : OperatingHours.Parse(hours).OrThrow()
            ),
            Tasks = [ServiceTask.FullService],
            People = [new(new("tech-01"), JobRole.Performs)],
            Instruments =
            [
                Gauge("G-1"),
                Gauge("G-2"),
                Gauge("C-1", kind: InstrumentKind.Calliper),
                Gauge("D-1", kind: InstrumentKind.DialGauge),
            ],
            Units =
            [
                work(
                    new()
                    {
                        Id = Usual,
                        Reel = "R-1",
                        Bedknife = "B-1",
                        Position = 1,
                        Sheet = "reel-125-9-510",
                    }
                ),
            ],
        };
        return Job(with is null ? record : with(record));
    }

    public Season Job(ServiceRecord record)
    {
        files.Write(
            $"{record.Id}.json",
            System.Text.Encoding.UTF8.GetString(RecordFormat.Current.Write(record))
        );
        return this;
    }

    public HistoryTold Told(string? grindEvery = null, Func<RuleBook, RuleBook>? under = null)
    {
        var rules = RecordFiles.Rules;
        var told = new TellHistory(
            RecordFiles.Gathering,
            under is null ? rules.Book : under(rules.Book),
            rules.Site!
        ).Tell(
            [files.Folder],
            null,
            grindEvery is null ? null : RunningTime.Parse(grindEvery).OrThrow(),
            out var read
        );
        Assert.Empty(read.Problems);
        Assert.NotNull(told);
        return told;
    }

    public UnitOutlook Unit(string? grindEvery = null) => Told(grindEvery).Units[0];

    public static ImmutableArray<BenchEntry> Diameter(string value) =>
        [Read(MeasuredQuantity.ReelDiameter, value)];
}
