namespace ServiceRules.Domain.Records;

/// <summary>A part was fitted.</summary>
public sealed record PartFitted : BenchEntry
{
    /// <summary>What kind of part.</summary>
    public required PartKind Part { get; init; }

    /// <summary>Identity text of the new part.</summary>
    public string? Identity { get; init; }

    /// <summary>Anything to add.</summary>
    public string? Note { get; init; }
}
