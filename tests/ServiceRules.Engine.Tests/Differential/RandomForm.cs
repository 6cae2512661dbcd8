using System.Collections.Immutable;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;

namespace ServiceRules.Engine.Tests.Differential;

/// <summary>
/// What no fixture shows: a reel read along its length, rollers tried on a plate, a clearance read with a gauge before and
/// after known steps.
/// </summary>
internal static class RandomForm
{
    private static readonly string[] Diameters =
    [
        "123.800 mm",
        "123.805 mm",
        "123.810 mm",
        "123.830 mm",
        "123.900 mm",
        "124.200 mm",
    ];

    private static readonly string[] Shims = ["0.001 in", "0.002 in", "0.003 in", "0.004 in", "0.006 in"];

    private static readonly string[] Ends = ["left", "right"];

    public static ServiceRecord Changed(Random random, ServiceRecord record)
    {
        int which = random.Next(record.Units.Length);
        var unit = record.Units[which];
        record = WithGauges(random, record);
        var entries = random.Next(3) switch
        {
            0 => Along(random, unit.Entries),
            1 => OnPlate(random, unit.Entries),
            _ => Stepped(random, unit.Entries),
        };
        return record with { Units = record.Units.SetItem(which, unit with { Entries = entries }) };
    }

    private static ServiceRecord WithGauges(Random random, ServiceRecord record)
    {
        bool isStudied = random.Next(3) == 0;
        var dial = new Instrument
        {
            Id = new("DI-91"),
            Kind = InstrumentKind.DialGauge,
            Resolution = Length("0.002 mm"),
            Repeatability = isStudied ? null : Length("0.002 mm"),
            RepeatabilityStudies = isStudied ? [new(Length("0.002 mm"), 1 + random.Next(6))] : [],
            Calibration = new(record.Date.AddDays(-90), record.Date.AddDays(200), Length("0.004 mm"), 2m),
            ZeroCheck = new(Length("0.000 mm"), null),
        };
        var feelers = new Instrument
        {
            Id = new("FG-91"),
            Kind = InstrumentKind.FeelerGauge,
            Tolerance = Length("0.0001 in"),
        };
        return record with
        {
            Instruments = [.. record.Instruments.Concat([dial, feelers]).DistinctBy(gauge => gauge.Id)],
        };
    }

    private static ImmutableArray<BenchEntry> Along(Random random, ImmutableArray<BenchEntry> entries)
    {
        IEnumerable<BenchEntry> others = entries
            .Where(entry => entry is not Reading { Quantity: MeasuredQuantity.ReelDiameter })
            .Select(entry => entry is Grinding ground ? ground with { Before = null, After = null } : entry);
        string first = Any(random, Diameters);
        List<BenchEntry> read =
        [
            .. ((StationName[])[StationName.Left, StationName.Middle, StationName.Right])
                .Where(_ => random.Next(12) > 0)
                .Select(
                    BenchEntry (station) =>
                        Read(
                            MeasuredQuantity.ReelDiameter,
                            new Station.Named(station),
                            random.Next(2) == 0 ? first : Any(random, Diameters)
                        )
                ),
        ];
        if (random.Next(4) == 0 && read.Count > 0)
        {
            read.Add(
                Any(random, read.ConvertAll(entry => (Reading)entry)) with
                {
                    Observed = new Observation.Measured(Length(Any(random, Diameters))),
                }
            );
        }

        return [.. others, .. read];
    }

    private static ImmutableArray<BenchEntry> OnPlate(Random random, ImmutableArray<BenchEntry> entries)
    {
        List<BenchEntry> tried = [];
        foreach (
            var roller in (MeasuredQuantity[])
                [MeasuredQuantity.FrontRollerOnPlate, MeasuredQuantity.RearRollerOnPlate]
        )
        {
            foreach (string end in Ends.Where(_ => random.Next(10) > 0))
            {
                int stops = random.Next(Shims.Length);
                var station = new Station.Named(end == "left" ? StationName.Left : StationName.Right);
                if (stops > 0 && random.Next(5) > 0)
                {
                    tried.Add(Tried(roller, station, Shims[stops - 1], passes: true));
                }

                tried.Add(Tried(roller, station, Shims[stops], passes: random.Next(12) == 0));
            }
        }

        return [.. entries, .. tried];
    }

    private static ImmutableArray<BenchEntry> Stepped(Random random, ImmutableArray<BenchEntry> entries)
    {
        IEnumerable<BenchEntry> others = entries.Where(entry =>
            entry is not Reading { Quantity: MeasuredQuantity.Clearance }
        );
        var station = new Station.Named(random.Next(2) == 0 ? StationName.Left : StationName.Right);
        int steps = random.Next(1, 6);
        bool opens = random.Next(2) == 0;
        decimal obtained = Any(random, [0.0127m, 0.0127m, 0.012m, 0.008m, 0.02m, 0m]);
        decimal first = 0.100m + (random.Next(3) * 0.02m);
        decimal second = first + (obtained * steps * (opens ? 1 : -1)) + (random.Next(-2, 3) * 0.002m);
        return
        [
            .. others,
            Read(MeasuredQuantity.Clearance, station, Millimetres(first)),
            new Adjustment
            {
                Adjuster = AdjusterKind.Clearance,
                Side = Any(random, Enum.GetValues<Side>()),
                Direction = opens ? AdjustDirection.Open : AdjustDirection.Close,
                Amount = new AdjustmentAmount.Steps(steps),
            },
            Read(MeasuredQuantity.Clearance, station, Millimetres(Math.Max(second, 0))),
        ];
    }

    private static string Millimetres(decimal length) =>
        string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{Math.Round(length, 3):0.000} mm");

    private static Reading Read(MeasuredQuantity quantity, Station station, string length) =>
        new()
        {
            Quantity = quantity,
            Station = station,
            Observed = new Observation.Measured(Length(length)),
            Instrument = new("DI-91"),
        };

    private static Reading Tried(MeasuredQuantity quantity, Station station, string feeler, bool passes) =>
        new()
        {
            Quantity = quantity,
            Station = station,
            Observed = new Observation.FeelerTest([Length(feeler)], passes),
            Instrument = new("FG-91"),
        };

    private static T Any<T>(Random random, IReadOnlyList<T> among) => among[random.Next(among.Count)];

    private static PrintedLength Length(string text) =>
        PrintedLength.Parse(text).TryGet(out var length, out _) ? length : throw new FormatException(text);
}
