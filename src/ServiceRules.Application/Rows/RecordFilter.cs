using System.Collections.Immutable;

namespace ServiceRules.Application.Rows;

/// <summary>Which versions of records are asked for; what is left out keeps nothing out.</summary>
public sealed record RecordFilter
{
    public string? Site { get; init; }

    /// <summary>The sites whose records may be told; null: those of every one, and those of which it is not known any more.</summary>
    public ImmutableArray<string>? Among { get; init; }

    public string? Machine { get; init; }

    /// <summary>The machine, without regard to the case of letters.</summary>
    public string? MachineOfAnyCase { get; init; }

    /// <summary>What the identity of the record contains, without regard to the case of letters.</summary>
    public string? Containing { get; init; }

    /// <summary>Versions in which this unit stands, without regard to the case of letters.</summary>
    public string? UnitOfAnyCase { get; init; }

    /// <summary>Versions in which this unit stands.</summary>
    public string? Unit { get; init; }

    /// <summary>The first day of jobs.</summary>
    public DateOnly? From { get; init; }

    /// <summary>The last day of jobs.</summary>
    public DateOnly? Until { get; init; }

    /// <summary>Whether the job may go out, as the formats spell it.</summary>
    public string? Disposition { get; init; }

    /// <summary>Whether it is open, signed off or followed up, as the formats spell it.</summary>
    public string? State { get; init; }

    /// <summary>Whether versions that another one followed are asked for as well.</summary>
    public bool AllVersions { get; init; }
}
