namespace ServiceRules.Application.Ledger;

/// <summary>The bytes of a leaf at its place in the log, counted from 0.</summary>
public sealed record StoredEntry(long Index, ReadOnlyMemory<byte> Bytes);
