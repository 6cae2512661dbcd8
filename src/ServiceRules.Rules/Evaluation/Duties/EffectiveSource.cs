using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>A source of energy that the people of a job had to reckon with.</summary>
/// <param name="Source">The source; the procedure's words win over the register's.</param>
/// <param name="AddedBy">The entry by which it came during the job; null: it was there from the beginning.</param>
/// <param name="InProcedure">The written procedure names it.</param>
/// <param name="InMachine">The register of machines names it.</param>
public sealed record EffectiveSource(
    EnergySource Source,
    OrderedEvent? AddedBy,
    bool InProcedure,
    bool InMachine
)
{
    /// <summary>Whether the registers describe it; one that only an entry names is known by its name alone.</summary>
    public bool IsDescribed => InProcedure || InMachine;

    /// <summary>There is something to switch off; of a source that nobody describes it is taken that there is.</summary>
    public bool HasIsolator => Source.Isolator is not null;

    /// <summary>Since when it had to be reckoned with.</summary>
    public TimelinePlace From => AddedBy?.Place() ?? TimelinePlace.Beginning;

    /// <summary>Whether it was there at a place of the timeline.</summary>
    public bool IsThereAt(TimelinePlace place) => From <= place;
}
