namespace ServiceRules.Application.Ledger;

/// <summary>A checkpoint found outside the database.</summary>
/// <param name="Where">The file, and which of it.</param>
/// <param name="Note">The text of the signed note, not yet believed.</param>
public sealed record ShelvedCheckpoint(string Where, string Note)
{
    /// <summary>
    /// Whether somebody else put it there. What cannot be read of theirs, or speaks of another log, says nothing; in a
    /// file of our own it is damage.
    /// </summary>
    public bool IsOfOthers { get; init; }

    /// <summary>Whether it is what stands behind the last whole note of our own file: the beginning of another.</summary>
    public bool IsRemnant { get; init; }
}
