namespace ServiceRules.Domain.Records;

/// <summary>A side of the unit, as seen from the operator's seat looking forward.</summary>
public enum Side
{
    /// <summary>The left end.</summary>
    Left,

    /// <summary>The right end.</summary>
    Right,

    /// <summary>Both ends alike.</summary>
    Both,
}
