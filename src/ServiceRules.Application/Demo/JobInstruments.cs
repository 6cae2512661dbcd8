using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;

namespace ServiceRules.Application.Demo;

/// <summary>The instruments taken to one job, each with the proof of fitness that the shop really has.</summary>
internal sealed class JobInstruments(DateOnly day, Chance chance, SeededFaultKind? fault)
{
    // By how much the mis-set gauge reads high that week.
    private const decimal MisSet = 0.06m;

    private readonly List<Gauge> taken = [];

    public IEnumerable<Instrument> Taken => taken.Select(gauge => gauge.Instrument);

    /// <summary>The height gauge bar that hangs beside a machine; two of the five show inches.</summary>
    public Gauge Height(string id) => Take(id, () => HeightGauge(id));

    /// <summary>The technician's own feelers.</summary>
    public Gauge Feelers(string technician) =>
        fault is SeededFaultKind.FeelersNotInspected
            ? Take("FG-09", () => FeelerSet("FG-09", "0.0001 in", null))
            : Take(
                "FG-0" + technician[^1],
                () => FeelerSet("FG-0" + technician[^1], "0.0001 in", FirstMonday())
            );

    /// <summary>The thick feelers for shields and brushes.</summary>
    public Gauge ThickFeelers() => Take("FG-11", () => FeelerSet("FG-11", "0.0005 in", FirstMonday()));

    /// <summary>The dial gauge for the front roller, or the one that was left in a drawer.</summary>
    public Gauge Dial() =>
        fault is SeededFaultKind.CalibrationLapsed
            ? Take("DG-02", () => DialGauge("DG-02", day.Year - 1))
            : Take("DG-01", () => DialGauge("DG-01", day.Year));

    public Gauge DiameterTape() =>
        Take(
            "DT-01",
            () =>
                Metric(
                    new()
                    {
                        Id = new("DT-01"),
                        Kind = InstrumentKind.DiameterTape,
                        Resolution = Print("0.02 mm"),
                        Repeatability = Print("0.01 mm"),
                        Calibration = Calibrated(day.Year, "0.04 mm"),
                    },
                    0.02m,
                    0.015m
                )
        );

    public Gauge Calliper() =>
        Take(
            "CL-01",
            () =>
                Metric(
                    new()
                    {
                        Id = new("CL-01"),
                        Kind = InstrumentKind.Calliper,
                        Resolution = Print("0.01 mm"),
                        Repeatability = Print("0.01 mm"),
                        Calibration = Calibrated(day.Year, "0.02 mm"),
                    },
                    0.01m,
                    0.015m
                )
        );

    private Gauge HeightGauge(string id)
    {
        var isInInches = id is "HG-02" or "HG-04";
        var isMisSet = fault is SeededFaultKind.MisSetHeightGauge;
        // A careful zero check comes out within one step of the gauge, mostly at nought.
        var steps = isMisSet || !chance.OneIn(4) ? 0 : chance.Between(-1, 1);
        var step = isInInches ? 0.0005m : 0.01m;
        var unit = isInInches ? LengthUnit.Inch : LengthUnit.Millimetre;
        var bias = isMisSet ? MisSet : steps * (isInInches ? 0.0127m : 0.01m);
        var gauge = new Gauge(
            new()
            {
                Id = new(id),
                Kind = InstrumentKind.HeightGauge,
                Resolution = PrintedLength.Of(step, unit).OrThrow(),
                Repeatability = Print(isInInches ? "0.0002 in" : "0.004 mm"),
                Calibration = Calibrated(day.Year, isInInches ? "0.0004 in" : "0.010 mm"),
            },
            unit,
            step,
            bias,
            0.006m
        );
        return gauge with
        {
            Instrument = gauge.Instrument with { ZeroCheck = new(gauge.Shown(bias), "SP-" + id[^2..]) },
        };
    }

    private static Gauge FeelerSet(string id, string tolerance, DateOnly? inspected) =>
        new(
            new()
            {
                Id = new(id),
                Kind = InstrumentKind.FeelerGauge,
                Tolerance = Print(tolerance),
                Inspection = inspected is { } date ? new(date, Condition.Sound) : null,
            },
            LengthUnit.Inch,
            0.0001m,
            0m,
            0m
        );

    private static Gauge DialGauge(string id, int year) =>
        Metric(
            new()
            {
                Id = new(id),
                Kind = InstrumentKind.DialGauge,
                Resolution = Print("0.01 mm"),
                Repeatability = Print("0.003 mm"),
                Calibration = Calibrated(year, "0.006 mm"),
            },
            0.01m,
            0.003m
        );

    private static Gauge Metric(Instrument instrument, decimal step, decimal spread) =>
        new(instrument, LengthUnit.Millimetre, step, 0m, spread);

    // Gauges go to be calibrated in January, before the season.
    private static Calibration Calibrated(int year, string expandedUncertainty) =>
        new(new(year, 1, 14), new(year + 1, 1, 14), Print(expandedUncertainty), 2m);

    /// <summary>Feelers are looked over on the first Monday of the month.</summary>
    private DateOnly FirstMonday()
    {
        var first = MondayFrom(new(day.Year, day.Month, 1));
        return first <= day ? first : MondayFrom(new DateOnly(day.Year, day.Month, 1).AddMonths(-1));
    }

    private static DateOnly MondayFrom(DateOnly date) =>
        date.AddDays(((int)DayOfWeek.Monday - (int)date.DayOfWeek + 7) % 7);

    private Gauge Take(string id, Func<Gauge> make)
    {
        var gauge = taken.Find(each => string.Equals(each.Id.Text, id, StringComparison.Ordinal));
        if (gauge is null)
        {
            gauge = make();
            taken.Add(gauge);
        }

        return gauge;
    }

    private static PrintedLength Print(string text) => PrintedLength.Parse(text).OrThrow();
}
