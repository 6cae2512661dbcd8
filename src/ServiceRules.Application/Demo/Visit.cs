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

    public bool Has(OddityKind oddity) => Plan.Oddity == oddity;

    /// <summary>One shift works first and the next after it, not side by side.</summary>
    public bool IsInShifts => Has(SeededFaultKind.ShiftGap) || Has(OddityKind.ShiftHandedOver);

    /// <summary>The unit after which something happens in the middle of the job.</summary>
    public static int Middle(int units) => (units - 1) / 2;

    /// <summary>Who works on a unit.</summary>
    public string WorkerAt(int unit, int units) =>
        IsInShifts ? Crew[unit <= Middle(units) ? 0 : 1] : Crew[unit % Crew.Length];

    public bool Has(SeededFaultKind fault, UnitCondition unit) =>
        Plan.Fault == fault && Plan.FaultyPosition == unit.Position;

    public Gauge HeightGauge => Instruments.Height(Plan.Machine.HeightGauge);
}
