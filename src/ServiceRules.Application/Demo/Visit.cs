using System.Collections.Immutable;

namespace ServiceRules.Application.Demo;

/// <summary>A job while it is being done: who, when, with what, and what it is to come to.</summary>
internal sealed record Visit
{
    public required PlannedJob Plan { get; init; }

    public required JobClock Clock { get; init; }

    public required Chance Chance { get; init; }

    public required JobInstruments Instruments { get; init; }

    /// <summary>Those with hands in, whoever signs first.</summary>
    public required ImmutableArray<string> Crew { get; init; }

    /// <summary>Height of cut asked for, millimetres.</summary>
    public required decimal TargetHeight { get; init; }

    public bool Has(SeededFaultKind fault) => Plan.Fault == fault;

    public bool Has(SeededFaultKind fault, UnitCondition unit) =>
        Plan.Fault == fault && Plan.FaultyPosition == unit.Position;

    public Gauge HeightGauge => Instruments.Height(Plan.Machine.HeightGauge);
}
