using ServiceRules.Formats.Ledger;

namespace ServiceRules.Application.Ledger;

/// <summary>An entry of the log, read.</summary>
/// <param name="Index">Its place, counted from 0.</param>
/// <param name="Entry">What it says.</param>
/// <param name="Bytes">The leaf itself.</param>
public sealed record FiledEntry(long Index, LedgerEntry Entry, ReadOnlyMemory<byte> Bytes);
