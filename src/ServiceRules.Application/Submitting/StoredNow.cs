using ServiceRules.Application.Ledger;
using ServiceRules.Application.Rows;

namespace ServiceRules.Application.Submitting;

/// <summary>What is stored at one moment, or in one transaction.</summary>
internal sealed record StoredNow(ILedgerReading Log, IRowReading Rows);
