using System.Collections.Immutable;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Checks;
using ServiceRules.Rules.Evaluation.Duties;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation;

/// <summary>
/// Everything a check may look at: the record, its context, the rules in force, and what is known per unit. Built
/// once per record; checks only read it.
/// </summary>
public sealed record JobFrame
{
    private MachinePlans plans = new(null);

    /// <summary>The record; where its own entries contradict its place, with the place it is judged at.</summary>
    public required ServiceRecord Record { get; init; }

    /// <summary>
    /// Its instruments in their order, each with what the site's register says of it: no gauge is worth more than the worse of both.
    /// </summary>
    public ImmutableArray<Instrument> Gauges => GaugesHeld.Of(Record, Context);

    /// <summary>Indexes of the entries by which a job that is called on the bench is judged as on the machine.</summary>
    public ImmutableArray<int> PlaceAgainst { get; init; } = [];

    /// <summary>Indexes of the units whose places on the machine contradict a job that is called on the bench.</summary>
    public ImmutableArray<int> UnitsInPlace { get; init; } = [];

    /// <summary>Members of a job that is called on the bench which only a machine in one piece has, as JSON pointers.</summary>
    public ImmutableArray<string> PartsOfAMachine { get; init; } = [];

    /// <summary>The frozen registers.</summary>
    public required AssessmentContext Context { get; init; }

    /// <summary>The rules and sheets in force.</summary>
    public required RuleBook Book { get; init; }

    /// <summary>The units, in the order of the record.</summary>
    public required ImmutableArray<UnitFrame> Units { get; init; }

    /// <summary>The written procedure for this machine and place, or null when none is registered.</summary>
    public required Procedure? Procedure { get; init; }

    /// <summary>
    /// There is something to switch off before hands go in: on the machine always, on the bench where the procedure that the
    /// job went by names an isolating device, as that of a grinder does.
    /// </summary>
    public bool HasIsolation =>
        Record.Place == WorkPlace.OnMachine
        || (Procedure ?? ProcedureInUse.Of(Record, Context.Procedures, Days.Began)?.Procedure)?.Sources.Any(
            source => source.Isolator is not null
        )
            is true;

    /// <summary>The timeline in judged order.</summary>
    public required ImmutableArray<OrderedEvent> Events { get; init; }

    /// <summary>The days that the record speaks of.</summary>
    public required JobDays Days { get; init; }

    /// <summary>Where the record stands.</summary>
    public required RecordState State { get; init; }

    /// <summary>The plans for its machine, solved as they are asked for; a copy of a frame has its own.</summary>
    internal MachinePlans Plans => plans.AreOf(this) ? plans : plans = new(this);
}
