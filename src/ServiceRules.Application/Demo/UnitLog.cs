using System.Collections.Immutable;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Application.Demo;

/// <summary>The bench log of one unit, written line by line as the clock goes on.</summary>
internal sealed class UnitLog(UnitCondition unit, Visit visit, string technician)
{
    private readonly ImmutableArray<BenchEntry>.Builder entries = ImmutableArray.CreateBuilder<BenchEntry>();

    public UnitCondition Unit => unit;

    public Visit Visit => visit;

    public string Technician => technician;

    public ImmutableArray<BenchEntry> Entries => entries.ToImmutable();

    public static Station At(StationName name) => new Station.Named(name);

    public static Station At(decimal fromLeft) =>
        new Station.AtDistance(PrintedLength.Of(fromLeft, LengthUnit.Millimetre).OrThrow());

    public void Read(Reading reading, int seconds = 25)
    {
        visit.Clock.Pass(seconds + visit.Chance.Between(0, 12));
        entries.Add(reading with { At = Time, By = By });
    }

    public void See(MeasuredQuantity quantity, Condition condition, int seconds = 25) =>
        Read(new() { Quantity = quantity, Observed = new Observation.Seen(condition) }, seconds);

    /// <summary>Reads a length at a station and gives what the gauge showed, in millimetres.</summary>
    public decimal Measure(
        MeasuredQuantity quantity,
        Station? station,
        decimal truth,
        Gauge gauge,
        ReadingPhase? phase = null
    )
    {
        var shown = gauge.Read(truth, visit.Chance);
        Read(
            new()
            {
                Quantity = quantity,
                Station = station,
                Phase = phase,
                Observed = new Observation.Measured(shown),
                Instrument = gauge.Id,
            }
        );
        return shown.Value.Millimetres;
    }

    /// <summary>Tries a feeler, which passes if the gap is at least as wide.</summary>
    public bool TryFeeler(
        MeasuredQuantity quantity,
        Station station,
        decimal gap,
        string feeler,
        Gauge feelers,
        ReadingPhase? phase = null
    )
    {
        var print = PrintedLength.Parse(feeler).OrThrow();
        var passes = gap >= print.Value.Millimetres;
        Read(
            new()
            {
                Quantity = quantity,
                Station = station,
                Phase = phase,
                Observed = new Observation.FeelerTest([print], passes),
                Instrument = feelers.Id,
            },
            12
        );
        return passes;
    }

    public void Turn(AdjusterKind adjuster, Side side, AdjustDirection direction, int steps) =>
        Turn(adjuster, side, direction, new AdjustmentAmount.Steps(steps));

    public void Turn(AdjusterKind adjuster, Side side) =>
        Turn(adjuster, side, null, new AdjustmentAmount.NotStated());

    public void Turn(AdjusterKind adjuster, Side side, AdjustDirection? direction, AdjustmentAmount amount)
    {
        visit.Clock.Pass(20 + visit.Chance.Between(0, 20));
        entries.Add(
            new Adjustment
            {
                Adjuster = adjuster,
                Side = side,
                Direction = direction,
                Amount = amount,
                At = Time,
                By = By,
            }
        );
    }

    public void Grind(GrindingKind kind, PrintedLength before, PrintedLength after, int minutes)
    {
        visit.Clock.Pass(minutes * 60);
        entries.Add(
            new Grinding
            {
                Kind = kind,
                Before = before,
                After = after,
                At = Time,
                By = By,
            }
        );
    }

    /// <summary>Lapped: what comes off is too little to measure.</summary>
    public void Lap(int minutes)
    {
        visit.Clock.Pass(minutes * 60);
        entries.Add(
            new Grinding
            {
                Kind = GrindingKind.Lapping,
                At = Time,
                By = By,
            }
        );
    }

    public void Fit(PartKind part, string? identity, string? note, int minutes)
    {
        visit.Clock.Pass(minutes * 60);
        entries.Add(
            new PartFitted
            {
                Part = part,
                Identity = identity,
                Note = note,
                At = Time,
                By = By,
            }
        );
    }

    /// <summary>The unit as the record has it.</summary>
    public UnitWork Written() =>
        new()
        {
            Id = unit.Id,
            Reel = unit.Reel,
            Bedknife = unit.Bedknife,
            Position = visit.Plan.Place is WorkPlace.OnMachine ? unit.Position : null,
            Sheet = unit.Kind.Sheet,
            Attachments = unit.Machine.Attachments,
            Entries = Entries,
        };

    private RecordedTime? Time => visit.Plan.IsTimed ? visit.Clock.Now : null;

    private Domain.Id<Participant>? By => visit.Crew.Length > 1 ? new(technician) : null;
}
