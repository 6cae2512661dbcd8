using System.Collections.Immutable;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Bench;

/// <summary>
/// The readings of a unit in the order of its bench log, each with what was done before and after it. The order of
/// the log decides, not the word (found, between, left) that the person put to a reading. A grinding entry that
/// states a size before or after is a reading of that size too, with the gauge of the nearest other reading of it.
/// </summary>
internal sealed class BenchLog
{
    private readonly ImmutableArray<BenchEntry> entries;
    private readonly int unit;
    private readonly LimitSheet sheet;
    private readonly ImmutableArray<Instrument> gauges;

    private readonly ShiftsInForce shifts;
    private readonly PlacesRead places;

    private BenchLog(UnitWork work, int unit, LimitSheet sheet, ServiceRecord record, ShiftsInForce shifts)
    {
        this.shifts = shifts;
        entries = work.Entries;
        this.unit = unit;
        this.sheet = sheet;
        gauges = record.Instruments;
        places = PlacesRead.Of(entries, sheet);
    }

    /// <summary>The readings, what steps carry along shifted by as much as the sheet says.</summary>
    public static ImmutableArray<LoggedReading> Of(
        UnitWork work,
        int unit,
        LimitSheet sheet,
        ServiceRecord record
    ) => Of(work, unit, sheet, record, ShiftsInForce.OfSheet);

    /// <summary>The same, shifted by as much as is in force.</summary>
    public static ImmutableArray<LoggedReading> Of(
        UnitWork work,
        int unit,
        LimitSheet sheet,
        ServiceRecord record,
        ShiftsInForce shifts
    ) => new BenchLog(work, unit, sheet, record, shifts).Readings();

    private ImmutableArray<LoggedReading> Readings()
    {
        var found = FoundFlags();
        var readings = new Stack<LoggedReading>();
        var since = new Disturbances(sheet, shifts);
        var disturbedBy = new DisturbedBy();
        for (var index = entries.Length - 1; index >= 0; index--)
        {
            var pointer = Pointers.Entry(unit, index);
            switch (entries[index])
            {
                case Reading { Withdrawn: not null }:
                    break;
                case Reading reading:
                    readings.Push(Logged(reading, index, found[index], since, disturbedBy));
                    break;
                case Grinding grinding:
                    var stated = grinding.States;
                    Push(readings, stated, grinding.After, index, "/after", false, since, disturbedBy);
                    Disturb(grinding, pointer, since, disturbedBy);
                    Push(
                        readings,
                        stated,
                        grinding.Before,
                        index,
                        "/before",
                        found[index],
                        since,
                        disturbedBy
                    );
                    break;
                default:
                    Disturb(entries[index], pointer, since, disturbedBy);
                    break;
            }
        }

        return [.. readings];
    }

    /// <summary>For each entry: whether nothing before it disturbed the quantity that it reads or states.</summary>
    private bool[] FoundFlags()
    {
        var flags = new bool[entries.Length];
        var before = new Disturbances(sheet);
        for (var index = 0; index < entries.Length; index++)
        {
            flags[index] = entries[index] switch
            {
                Reading reading => before.On(reading.Quantity).IsNone,
                Grinding grinding => before.On(grinding.States).IsNone,
                _ => false,
            };
            before.Add(entries[index]);
        }

        return flags;
    }

    private LoggedReading Logged(
        Reading reading,
        int index,
        bool found,
        Disturbances since,
        DisturbedBy disturbedBy
    ) =>
        new(
            index,
            Pointers.Entry(unit, index),
            reading.Quantity,
            new(places.Of(reading), reading.Blade),
            reading.Observed,
            GaugeOf(reading),
            found,
            since.On(reading.Quantity),
            disturbedBy.Last(reading.Quantity)
        )
        {
            DisturbedAfter = disturbedBy.Count(reading.Quantity),
            At = reading.At,
        };

    private void Push(
        Stack<LoggedReading> readings,
        MeasuredQuantity quantity,
        PrintedLength? size,
        int index,
        string member,
        bool found,
        Disturbances since,
        DisturbedBy disturbedBy
    )
    {
        if (size is not null)
        {
            readings.Push(
                new(
                    index,
                    Pointers.Entry(unit, index) + member,
                    quantity,
                    default,
                    new Observation.Measured(size),
                    NearestGauge(index),
                    found,
                    since.On(quantity),
                    disturbedBy.Last(quantity)
                )
                {
                    DisturbedAfter = disturbedBy.Count(quantity),
                }
            );
        }
    }

    private void Disturb(BenchEntry entry, string pointer, Disturbances since, DisturbedBy disturbedBy)
    {
        since.Add(entry);
        var alone = new Disturbances(sheet);
        alone.Add(entry);
        foreach (var quantity in Enum.GetValues<MeasuredQuantity>())
        {
            if (!alone.On(quantity).IsNone)
            {
                disturbedBy.Add(quantity, pointer);
            }
        }
    }

    private Instrument? GaugeOf(Reading reading) =>
        reading.Instrument is { } id ? gauges.FirstOrDefault(gauge => gauge.Id == id) : null;

    private Instrument? NearestGauge(int index) =>
        SizeGauge.Of(entries, index) is { } id ? gauges.FirstOrDefault(gauge => gauge.Id == id) : null;

    /// <summary>What disturbed each quantity after an entry, the log being read from its end.</summary>
    private sealed class DisturbedBy
    {
        private readonly Dictionary<MeasuredQuantity, (string Last, int Count)> told = [];

        public void Add(MeasuredQuantity quantity, string pointer) =>
            told[quantity] = told.TryGetValue(quantity, out var known)
                ? (known.Last, known.Count + 1)
                : (pointer, 1);

        public string? Last(MeasuredQuantity quantity) =>
            told.TryGetValue(quantity, out var known) ? known.Last : null;

        public int Count(MeasuredQuantity quantity) => told.GetValueOrDefault(quantity).Count;
    }
}
