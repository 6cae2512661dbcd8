using System.Collections.Immutable;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;

namespace ServiceRules.Application.Demo;

/// <summary>Something wrong that was put into a demo job on purpose.</summary>
public sealed record SeededFault
{
    public required SeededFaultKind Kind { get; init; }

    /// <summary>The unit that it is on; absent: the job, or its units together.</summary>
    public Id<UnitWork>? Unit { get; init; }

    /// <summary>What the judge must hold or stop on, and nothing else.</summary>
    public required ImmutableArray<ExpectedFinding> Expected { get; init; }

    /// <summary>What happened, in the words of the shop.</summary>
    public required string Description { get; init; }
}
