using System.Collections.Immutable;

namespace ServiceRules.Application.Ledger;

/// <summary>What came of opening a log.</summary>
public abstract record LedgerOpening
{
    private LedgerOpening() { }

    /// <summary>It is the log that every checkpoint outside speaks of, as long as that or longer.</summary>
    /// <param name="Ledger">The log.</param>
    /// <param name="Remarks">What a person should know, though it stops nothing.</param>
    public sealed record Opened(OpenLedger Ledger, ImmutableArray<string> Remarks) : LedgerOpening;

    /// <summary>It is not, and nothing may be added to it.</summary>
    public sealed record Refused(ImmutableArray<LedgerFault> Faults) : LedgerOpening;
}
