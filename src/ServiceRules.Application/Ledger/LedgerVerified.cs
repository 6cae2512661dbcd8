using System.Collections.Immutable;
using ServiceRules.Evidence.Log;

namespace ServiceRules.Application.Ledger;

/// <summary>What came of verifying a whole log.</summary>
/// <param name="Size">Entries found.</param>
/// <param name="Root">Root of the tree that they come to.</param>
/// <param name="Contents">Contents whose bytes were hashed again.</param>
/// <param name="Erased">Contents that erasures removed.</param>
/// <param name="Checkpoints">Checkpoints held against the entries, those outside included.</param>
/// <param name="Faults">Everything that is wrong; empty when nothing is.</param>
/// <param name="Remarks">What a person should know, though it is no fault.</param>
public sealed record LedgerVerified(
    long Size,
    TreeHash Root,
    long Contents,
    long Erased,
    long Checkpoints,
    ImmutableArray<LedgerFault> Faults,
    ImmutableArray<string> Remarks
)
{
    /// <summary>
    /// Whether nothing outside the log speaks for it although more than one filing should have left a checkpoint there: it
    /// may have been put back from an older copy.
    /// </summary>
    public bool IsUnspokenFor { get; init; }

    /// <summary>How far the witnesses that were asked for have cosigned it.</summary>
    public ImmutableArray<CosignedHead> Cosigned { get; init; } = [];
}
