using System.Collections.Immutable;
using ServiceRules.Application.Ledger;

namespace ServiceRules.Application.Rows;

/// <summary>What came of making the rows anew.</summary>
/// <param name="Entries">How many entries were gone through.</param>
/// <param name="Lost">The rows that could not be made, each with the content that is lost. They stand as they were, where they did.</param>
public sealed record RebuiltRows(long Entries, ImmutableArray<LedgerFault> Lost);
