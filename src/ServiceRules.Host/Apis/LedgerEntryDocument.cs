namespace ServiceRules.Host.Apis;

/// <summary>An answer that is an entry of the log, for the description of the interface.</summary>
[Published("ledger-entry")]
internal sealed class LedgerEntryDocument;
