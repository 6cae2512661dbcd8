namespace ServiceRules.Application.Ledger;

/// <summary>A checkpoint found outside the database.</summary>
/// <param name="Where">The file, and which of it.</param>
/// <param name="Note">The text of the signed note, not yet believed.</param>
public sealed record ShelvedCheckpoint(string Where, string Note);
