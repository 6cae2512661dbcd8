namespace ServiceRules.Application.Ledger;

/// <summary>What a copy of a log holds, and how it stands to the log that it was made of.</summary>
/// <param name="Verified">The copy, held against itself and every checkpoint that speaks of no more than it has.</param>
/// <param name="Known">The largest size that a checkpoint outside, or the log itself, speaks of.</param>
/// <param name="Apart">Where the copy is no beginning of the log; null when it is, or when there was none to compare with.</param>
public sealed record LedgerCopyTried(LedgerVerified Verified, long Known, LedgerFault? Apart)
{
    /// <summary>How many of the newest entries are not in the copy.</summary>
    public long Missing => Math.Max(0, Known - Verified.Size);

    /// <summary>Whether the copy is what it says it is, and a beginning of the log.</summary>
    public bool IsSound => Verified.Faults.IsEmpty && Apart is null;
}
