namespace ServiceRules.Formats.Ledger;

/// <summary>An entry that a later one corrects: its place in the log and the digest of its content.</summary>
public sealed record CorrectedEntry(long Index, string Content);
