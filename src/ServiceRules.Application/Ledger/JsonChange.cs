namespace ServiceRules.Application.Ledger;

/// <summary>One difference between two versions of a document.</summary>
/// <param name="Pointer">Where in the later version, as a JSON pointer; where something is gone, in the earlier one.</param>
/// <param name="Old">The earlier value as JSON; null when it is new.</param>
/// <param name="New">The later value as JSON; null when it is gone.</param>
public sealed record JsonChange(string Pointer, string? Old, string? New);
