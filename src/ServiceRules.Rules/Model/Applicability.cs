using System.Collections.Immutable;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;

namespace ServiceRules.Rules.Model;

/// <summary>When a rule applies: a conjunction of the parts that are present. Empty lists ask nothing.</summary>
public sealed record Applicability
{
    /// <summary>Applies always.</summary>
    public static Applicability Always { get; } = new();

    /// <summary>Any of these tasks is among the unit's (or job's) tasks.</summary>
    public ImmutableArray<ServiceTask> Tasks { get; init; } = [];

    /// <summary>
    /// Or, whatever the tasks, any of these was read on the unit and still holds: then what is proven out counts, and what is
    /// unproven is told and holds nothing. Asks nothing without <see cref="Tasks"/>.
    /// </summary>
    public ImmutableArray<MeasuredQuantity> OrRead { get; init; } = [];

    /// <summary>The unit is held to any of these sheets.</summary>
    public ImmutableArray<string> Sheets { get; init; } = [];

    /// <summary>The unit's bedknife is mounted so.</summary>
    public BedknifeMounting? Bedknife { get; init; }

    /// <summary>All of these are fitted.</summary>
    public ImmutableArray<Attachment> Attachments { get; init; } = [];

    /// <summary>The machine serves any of these areas.</summary>
    public ImmutableArray<string> Areas { get; init; } = [];

    /// <summary>The work is done here.</summary>
    public WorkPlace? Place { get; init; }

    /// <summary>
    /// There is something to switch off: on the machine always, on the bench where its procedure names an isolating device.
    /// </summary>
    public bool? Isolation { get; init; }

    /// <summary>The school in force for the unit.</summary>
    public ContactSchool? School { get; init; }

    /// <summary>Something of this kind was turned on the unit.</summary>
    public ImmutableArray<AdjusterKind> AnyTurned { get; init; } = [];

    /// <summary>Any of these was read on the unit, in any way.</summary>
    public ImmutableArray<MeasuredQuantity> AnyRead { get; init; } = [];

    /// <summary>
    /// Any of these was read on the unit at two places or more along the width: for what such readings happen to show, and
    /// nobody has to take them for.
    /// </summary>
    public ImmutableArray<MeasuredQuantity> AnyReadAlong { get; init; } = [];

    /// <summary>Metal was removed from the unit in this job.</summary>
    public bool? Ground { get; init; }

    /// <summary>The unit's sheet states a limit that the check needs. Rules without it never apply to that sheet.</summary>
    public MeasuredQuantity? SheetStates { get; init; }

    /// <summary>First day in force.</summary>
    public DateOnly? From { get; init; }

    /// <summary>Last day in force.</summary>
    public DateOnly? Until { get; init; }
}
