using ServiceRules.Domain.Records;
using ServiceRules.Rules.Model;

namespace ServiceRules.Oracle;

/// <summary>The places of one quantity on one unit, told from the bench log.</summary>
internal sealed class Spots
{
    private readonly Facts facts;
    private readonly UnitWork unit;
    private readonly LimitSheet sheet;
    private readonly MeasuredQuantity quantity;
    private readonly BenchReplay replay;

    private readonly int? blade;

    /// <summary>The places of a quantity; of one blade only where one is named.</summary>
    public Spots(Facts facts, UnitWork unit, MeasuredQuantity quantity, int? blade = null)
    {
        this.blade = blade;
        this.facts = facts;
        this.unit = unit;
        this.quantity = quantity;
        sheet = facts.Book.Sheet(unit.Sheet)!;
        replay = new(unit, sheet);
        Width = sheet.Width.Governing.Value.Millimetres;
        var limit = sheet.Of(quantity);
        Left = limit?.LeftStation?.Value.Millimetres;
        Right = limit?.RightStation?.Value.Millimetres;
        All = Read();
    }

    public decimal Width { get; }

    public decimal? Left { get; }

    public decimal? Right { get; }

    public IReadOnlyList<Spot> All { get; }

    public bool NamesStations => Left is not null && Right is not null;

    public bool IsPlain => All.All(s => s.IsPlain);

    public IReadOnlyList<Spot> Known => [.. All.Where(s => s.Tells && s.Proves)];

    /// <summary>Somewhere readings contradict one another: whatever all of them show of a breach may be shown.</summary>
    public bool IsContested => All.Any(s => s.Believed is null or { Count: > 0 });

    public bool BothStationsKnown =>
        !NamesStations || (Known.Any(s => s.At == Left) && Known.Any(s => s.At == Right));

    public decimal? Place(Station? station)
    {
        switch (station)
        {
            case Station.Named { Name: StationName.Left }:
                return Left ?? 0;
            case Station.Named { Name: StationName.Right }:
                return Right ?? Width;
            case Station.Named:
                return Width / 2;
            case Station.AtDistance far:
                decimal at = far.FromLeft.Value.Millimetres;
                return Left is { } left && Math.Abs(at - left) <= 5 ? left
                    : Right is { } right && Math.Abs(at - right) <= 5 ? right
                    : at;
            default:
                return null;
        }
    }

    /// <summary>Places within 5 mm of one another are one: which of them names it is not asked here.</summary>
    private decimal? Together(Reading reading)
    {
        decimal? at = Place(reading.Station);
        return at is null || at == Left || at == Right
            ? at
            : unit
                .Entries.OfType<Reading>()
                .Where(r => r.Quantity == quantity)
                .Select(r => Place(r.Station))
                .Where(other => other is { } far && Math.Abs(far - at.Value) <= 5)
                .Select(other => other!.Value)
                .OrderBy(other => other == Left || other == Right ? 0 : 1)
                .First();
    }

    private List<Spot> Read()
    {
        Dictionary<string, List<(int Index, Reading Reading)>> places = [];
        for (int i = 0; i < unit.Entries.Length; i++)
        {
            if (
                unit.Entries[i]
                    is Reading { Observed: Observation.Measured or Observation.FeelerTest } reading
                && reading.Quantity == quantity
                && (blade is null || reading.Blade == blade)
            )
            {
                string key = Together(reading)?.ToString("F9", null) ?? "";
                places.TryAdd(key, []);
                places[key].Add((i, reading));
            }
        }

        return [.. places.Values.Select(Told)];
    }

    private Spot Told(List<(int Index, Reading Reading)> readings)
    {
        decimal? at = Together(readings[0].Reading);
        bool mixed =
            readings.Any(r => r.Reading.Observed is Observation.Measured)
            && readings.Any(r => r.Reading.Observed is Observation.FeelerTest);
        bool odd =
            mixed
            || readings.Any(r => r.Reading.Blade != blade)
            || (at is null && NamesStations)
            || unit.Entries.OfType<Grinding>().Any(g => g.Before is not null || g.After is not null)
                && quantity is MeasuredQuantity.ReelDiameter or MeasuredQuantity.BedknifeLip;
        var spot =
            readings[0].Reading.Observed is Observation.Measured
                ? Measured([.. readings.Where(r => r.Reading.Observed is Observation.Measured)], at)
                : Tried([.. readings.Where(r => r.Reading.Observed is Observation.FeelerTest)], at);
        return spot with { IsPlain = spot.IsPlain && !odd };
    }

    private Spot Measured(List<(int Index, Reading Reading)> readings, decimal? at)
    {
        var fates = readings
            .Select(r => (r.Reading, r.Index, Fate: replay.After(quantity, r.Index)))
            .ToList();
        var standing = fates.Where(f => !f.Fate.IsVoid).ToList();
        if (standing.Count == 0)
        {
            return new() { At = at, State = SpotState.Void };
        }

        var fit = standing.Where(f => !Gauges.IsUnfit(f.Reading, facts)).ToList();
        var counting = fit.Count > 0 ? fit : standing;
        // Of gauges with a certificate and others, those with one count; whether the others contradict them is left open.
        var certified = counting.Where(c => IsCertified(facts.Gauge(c.Reading))).ToList();
        bool mixed = certified.Count > 0 && certified.Count < counting.Count;
        counting = certified.Count > 0 ? certified : counting;
        var last = counting[^1];
        var system = ((Observation.Measured)last.Reading.Observed).Value.System;
        var spot = Of(last.Reading, last.Fate, at) with { System = system, Proves = false };
        if (mixed)
        {
            return spot with { IsPlain = false };
        }

        if (Gauges.IsUnknown(facts.Gauge(last.Reading)))
        {
            return spot with { IsPlain = standing.Count == 1 };
        }

        // What an unfit gauge, or one of which nothing is known, read after the last fit one may contradict it: no opinion.
        if (
            fit.Count > 0
            && standing.Any(s =>
                s.Index > last.Index
                && Math.Abs(
                    Gauges.Right(facts.Gauge(s.Reading), ((Observation.Measured)s.Reading.Observed).Value)
                        - spot.Value
                ) > 0.005m
            )
        )
        {
            return spot with { Proves = true, IsPlain = false };
        }

        spot = spot with
        {
            Proves = true,
            IsFit = fit.Count > 0,
            // What readings tell of the shift itself takes the place of the sheet's: no opinion by how much.
            IsPlain = last.Fate.Carried.Count == 0 || !TellsShift(),
        };
        // Where one of several is of a gauge of which nothing is known, or has another standing, no opinion is held.
        if (
            counting.Any(c =>
                Gauges.IsUnknown(facts.Gauge(c.Reading)) || !c.Fate.Carried.SequenceEqual(last.Fate.Carried)
            )
        )
        {
            return spot with { IsPlain = counting.Count == 1 };
        }

        return Repeated(
            [.. counting.Select(c => Of(c.Reading, c.Fate, at) with { IsFit = fit.Count > 0 })],
            [.. counting.Select(c => c.Reading)],
            spot
        );
    }

    private static bool IsCertified(Instrument? gauge) => gauge?.Calibration is not null;

    /// <summary>
    /// Readings of one place, one after the other. Those that contradict the last are outweighed where the last two agree,
    /// where more readings agree with the last than do not, and more gauges by what each read last.
    /// </summary>
    private Spot Repeated(List<Spot> each, List<Reading> readings, Spot spot)
    {
        int last = each.Count - 1;
        List<int> against = [];
        for (int i = 0; i < last; i++)
        {
            double most = MostApart(readings[i], readings[last]);
            double apart = (double)Math.Abs(each[i].Value - each[last].Value);
            if (Math.Abs(apart - most) < 1e-6)
            {
                return spot with { IsPlain = false };
            }

            if (apart > most)
            {
                against.Add(i);
            }
        }

        if (against.Count == 0)
        {
            return each.Count == 1 ? spot : Mean(each, spot, each.Count);
        }

        var since = each[(against.Max() + 1)..];
        if (since.Count == 1)
        {
            return spot with { State = SpotState.Conflicting, Believed = each };
        }

        var gauges = readings.Select(r => r.Instrument).Distinct().ToList();
        int gaugesAgainst = gauges.Count(g =>
            against.Contains(readings.FindLastIndex(r => r.Instrument == g))
        );
        var mean = Mean(since, spot, since.Count);
        return against.Count < each.Count - against.Count && gaugesAgainst < gauges.Count - gaugesAgainst
            ? mean
            : mean with
            {
                State = SpotState.Conflicting,
                ShowsBreach = true,
                IsFit = false,
            };
    }

    /// <summary>
    /// Two gauges: the root of the squares of both expanded uncertainties. One gauge: two deviations of the difference of what
    /// each reading has of its own, and a step of the gauge at least.
    /// </summary>
    private double MostApart(Reading one, Reading other)
    {
        var (first, second) = (facts.Gauge(one), facts.Gauge(other));
        var a = Gauges.Squares(first, ((Observation.Measured)one.Observed).Value);
        var b = Gauges.Squares(second, ((Observation.Measured)other.Observed).Value);
        if (one.Instrument != other.Instrument)
        {
            return Math.Sqrt(Math.Pow(Alone(first, a), 2) + Math.Pow(Alone(second, b), 2));
        }

        double steps =
            Gauges.Shown(first, ((Observation.Measured)one.Observed).Value)
            + Gauges.Shown(second, ((Observation.Measured)other.Observed).Value);
        var scatter = Gauges.Scatter(first);
        return Math.Max(
            Coverage.Expanded(a.Own + b.Own - (2 * scatter.Square), [(2 * scatter.Square, scatter.Degrees)]),
            steps / 2
        );
    }

    private static double Alone(Instrument? gauge, (double Own, double Shared) squares)
    {
        var (scatter, certificate) = (Gauges.Scatter(gauge), Gauges.Certificate(gauge));
        return Coverage.Expanded(
            squares.Own + squares.Shared - scatter.Square - certificate.Square,
            [scatter, certificate]
        );
    }

    /// <summary>Whether the quantity was read before and after something that only shifts it.</summary>
    private bool TellsShift()
    {
        var read = unit
            .Entries.Select((entry, index) => (Reading: entry as Reading, index))
            .Where(r => r.Reading?.Quantity == quantity && r.Reading.Observed is Observation.Measured)
            .Select(r => r.index)
            .ToList();
        return read.Exists(i => read.Exists(k => k > i && replay.ShiftedBetween(quantity, i, k).Count > 0));
    }

    private static Spot Mean(List<Spot> values, Spot last, int count)
    {
        bool oneGauge = values.All(v => v.Gauge == last.Gauge && v.System == values[0].System);
        decimal mean = values.Sum(v => v.Value) / count;
        return last with
        {
            Value = mean,
            IsPlain = last.IsPlain && oneGauge && last.IsFit,
            // Whether resolution averages is not written: both are allowed.
            Own = (last.Own.Least / count, last.Own.Greatest),
            Scatter = last.Scatter with { Least = last.Scatter.Least / count },
        };
    }

    private Spot Of(Reading reading, Fate fate, decimal? at)
    {
        var print = ((Observation.Measured)reading.Observed).Value;
        var (own, shared) = Gauges.Squares(facts.Gauge(reading), print);
        var scatter = Gauges.Scatter(facts.Gauge(reading));
        double carried = fate.Carried.Sum(c => (double)(c * c) / 3);
        // The other print of the shift may be the one that is meant: both are allowed.
        return new()
        {
            At = at,
            State = SpotState.Known,
            Value = Gauges.Right(facts.Gauge(reading), print),
            Own = (own + (carried * 0.96), own + (carried * 1.0001)),
            Shared = shared,
            Scatter = (scatter.Square, scatter.Square, scatter.Degrees),
            Certificate = Gauges.Certificate(facts.Gauge(reading)),
            Gauge = reading.Instrument?.Text,
            System = print.System,
        };
    }

    private Spot Tried(List<(int Index, Reading Reading)> tries, decimal? at)
    {
        var told = Feelers.Told(facts, unit, quantity, replay, tries, at);
        return told with { At = at };
    }
}
