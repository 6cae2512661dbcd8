using System.Collections.Immutable;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;

namespace ServiceRules.Engine.Tests.Differential;

/// <summary>One change at random to the bench log of a unit.</summary>
internal static class RandomBench
{
    private static readonly decimal[] Nudges =
    [
        0.0005m,
        0.001m,
        0.002m,
        0.004m,
        0.005m,
        0.006m,
        0.010m,
        0.020m,
    ];

    private static readonly string[] Feelers =
    [
        "0.0005 in",
        "0.001 in",
        "0.0015 in",
        "0.002 in",
        "0.003 in",
        "0.004 in",
        "0.025 mm",
        "0.038 mm",
        "0.05 mm",
        "0.08 mm",
    ];

    public static ImmutableArray<BenchEntry> Changed(
        Random random,
        ImmutableArray<BenchEntry> entries,
        ServiceRecord record
    )
    {
        int at = random.Next(entries.Length + 1);
        switch (random.Next(12))
        {
            case 10 or 11 when ReadAgain(random, entries, record) is { } again:
                return again;
            case 0 when at < entries.Length:
                return entries.RemoveAt(at);
            case 1 when at < entries.Length:
                return entries.Add(entries[at]);
            case 2 when at + 1 < entries.Length:
                return entries.SetItem(at, entries[at + 1]).SetItem(at + 1, entries[at]);
            case 3 or 4 when at < entries.Length:
                return entries.SetItem(at, Nudged(random, entries[at]));
            case 5 or 6:
                return entries.Insert(at, Turned(random));
            case 7:
                return entries.Insert(at, Read(random, record));
            case 8 when random.Next(2) == 0:
                return entries.Insert(at, Worked(random));
            default:
                return entries.Add(Read(random, record));
        }
    }

    private static BenchEntry Nudged(Random random, BenchEntry entry)
    {
        decimal by = Nudges[random.Next(Nudges.Length)] * (random.Next(2) == 0 ? 1 : -1);
        return entry switch
        {
            Reading { Observed: Observation.Measured measured } reading => reading with
            {
                Observed = new Observation.Measured(Moved(measured.Value, by)),
            },
            Reading { Observed: Observation.FeelerTest test } reading => reading with
            {
                Observed = test with { Passes = !test.Passes },
            },
            Reading { Observed: Observation.Seen } reading => reading with
            {
                Observed = new Observation.Seen(Condition.Faulty),
            },
            Reading { Observed: Observation.Contact } reading => reading with { Observed = Contact(random) },
            Reading { Observed: Observation.Paper } reading => reading with
            {
                Observed = new Observation.Paper(Any(random, Enum.GetValues<PaperResult>())),
            },
            Adjustment turned => turned with { Amount = Amount(random) },
            _ => entry,
        };
    }

    /// <summary>
    /// A measured length is read again at once, once or more, alike or a little off, with its own gauge or another of its kind.
    /// </summary>
    private static ImmutableArray<BenchEntry>? ReadAgain(
        Random random,
        ImmutableArray<BenchEntry> entries,
        ServiceRecord record
    )
    {
        var measured = entries.OfType<Reading>().Where(r => r.Observed is Observation.Measured).ToList();
        if (measured.Count == 0)
        {
            return null;
        }

        var first = Any(random, measured);
        var kind = record.Instruments.FirstOrDefault(i => i.Id == first.Instrument)?.Kind;
        var others = record.Instruments.Where(i => i.Kind == kind).Select(i => i.Id).ToList();
        int at = entries.IndexOf(first) + 1;
        for (int more = random.Next(1, 5); more > 0; more--)
        {
            var length = ((Observation.Measured)first.Observed).Value;
            int steps = random.Next(4) == 0 ? random.Next(-6, 7) : random.Next(-1, 2);
            entries = entries.Insert(
                at,
                first with
                {
                    Observed = new Observation.Measured(Moved(length, 0.0005m * steps)),
                    Instrument =
                        others.Count > 1 && random.Next(3) == 0 ? Any(random, others) : first.Instrument,
                }
            );
            at++;
        }

        return entries;
    }

    private static PrintedLength Moved(PrintedLength value, decimal inches)
    {
        decimal by = value.System == UnitSystem.Inch ? inches : inches * 20;
        decimal figure =
            value.System == UnitSystem.Inch ? value.Value.Millimetres / 25.4m : value.Value.Millimetres;
        var unit = value.System == UnitSystem.Inch ? LengthUnit.Inch : LengthUnit.Millimetre;
        return PrintedLength.Of(Math.Round(figure + by, 4), unit).TryGet(out var moved, out _)
            ? moved
            : value;
    }

    private static Adjustment Turned(Random random)
    {
        var kind = random.Next(3) == 0 ? AdjusterKind.Clearance : Any(random, Enum.GetValues<AdjusterKind>());
        var amount = kind == AdjusterKind.Clearance ? Amount(random) : new AdjustmentAmount.NotStated();
        return new()
        {
            Adjuster = kind,
            Side = Any(random, Enum.GetValues<Side>()),
            Direction = Any(random, [AdjustDirection.Open, AdjustDirection.Close]),
            Amount = amount,
        };
    }

    private static AdjustmentAmount Amount(Random random) =>
        random.Next(4) == 0
            ? new AdjustmentAmount.NotStated()
            : new AdjustmentAmount.Steps(random.Next(1, 4));

    private static BenchEntry Worked(Random random) =>
        random.Next(2) == 0
            ? new Grinding { Kind = Any(random, Enum.GetValues<GrindingKind>()) }
            : new PartFitted { Part = Any(random, Enum.GetValues<PartKind>()) };

    private static Reading Read(Random random, ServiceRecord record)
    {
        var station = Place(random);
        var feelers = record.Instruments.FirstOrDefault(i => i.Kind == InstrumentKind.FeelerGauge)?.Id;
        var height = record.Instruments.FirstOrDefault(i => i.Kind == InstrumentKind.HeightGauge)?.Id;
        return random.Next(7) switch
        {
            0 or 1 => new()
            {
                Quantity = MeasuredQuantity.Clearance,
                Station = station,
                Observed = new Observation.FeelerTest([Print(Any(random, Feelers))], random.Next(2) == 0),
                Instrument = feelers,
            },
            2 => new() { Quantity = MeasuredQuantity.Clearance, Observed = Contact(random) },
            3 => new()
            {
                Quantity = Any(random, [MeasuredQuantity.BearingPlay, MeasuredQuantity.Guards]),
                Observed = new Observation.Seen(Any(random, Enum.GetValues<Condition>())),
            },
            4 => new()
            {
                Quantity = MeasuredQuantity.Edge,
                Observed = new Observation.Paper(Any(random, Enum.GetValues<PaperResult>())),
            },
            5 => new()
            {
                Quantity = Any(random, [MeasuredQuantity.GroomerHeight, MeasuredQuantity.FrontRoller]),
                Station = station,
                Observed = new Observation.Measured(
                    Print(Any(random, ["0.150 in", "0.1500 in", "0.010 mm"]))
                ),
                Instrument = height,
            },
            _ => new()
            {
                Quantity = MeasuredQuantity.HeightOfCut,
                Station = station,
                Observed = new Observation.Measured(
                    Print(Any(random, ["0.150 in", "0.1500 in", "3.80 mm", "3.90 mm", "4.0 mm"]))
                ),
                Instrument = random.Next(6) == 0 ? null : height,
            },
        };
    }

    /// <summary>A gauging station mostly, else between them.</summary>
    private static Station Place(Random random) =>
        random.Next(8) switch
        {
            0 => new Station.Named(StationName.Middle),
            1 => new Station.AtDistance(Print(Any(random, ["4 mm", "100 mm", "180 mm", "300 mm", "507 mm"]))),
            _ => new Station.Named(Any(random, [StationName.Left, StationName.Right])),
        };

    /// <summary>What was tried at one place is tried at every blade there, or at every blade but one.</summary>
    public static ImmutableArray<BenchEntry> BladeByBlade(
        Random random,
        ImmutableArray<BenchEntry> entries,
        int blades
    )
    {
        int leftOut = random.Next(3) == 0 ? random.Next(1, blades + 1) : 0;
        int other = random.Next(3) == 0 ? random.Next(1, blades + 1) : 0;
        return
        [
            .. entries.SelectMany(entry =>
                entry is Reading { Blade: null, Observed: Observation.FeelerTest test } reading
                    ? Enumerable
                        .Range(1, blades)
                        .Where(blade => blade != leftOut)
                        .Select(
                            BenchEntry (blade) =>
                                reading with
                                {
                                    Blade = blade,
                                    Observed = blade == other ? test with { Passes = !test.Passes } : test,
                                }
                        )
                    : [entry]
            ),
        ];
    }

    private static Observation.Contact Contact(Random random) =>
        new(Any(random, Enum.GetValues<ContactState>()));

    private static T Any<T>(Random random, IReadOnlyList<T> among) => among[random.Next(among.Count)];

    private static PrintedLength Print(string text) =>
        PrintedLength.Parse(text).TryGet(out var length, out _) ? length : throw new FormatException(text);
}
