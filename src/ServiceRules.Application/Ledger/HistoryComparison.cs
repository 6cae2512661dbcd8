using ServiceRules.Evidence.Log;

namespace ServiceRules.Application.Ledger;

/// <summary>
/// Holds what checkpoints say of a log against the log itself. Fed with leaves in their order, it keeps one root for
/// each size that a checkpoint speaks of.
/// </summary>
internal sealed class HistoryComparison(IReadOnlyCollection<ClaimedTree> claims)
{
    private readonly ILookup<long, ClaimedTree> bySize = claims.ToLookup(claim => claim.Size);
    private readonly List<ClaimedTree> different = [];

    // Whoever rewrote the database could sign its own checkpoints anew: where there are others, those say what still agrees.
    private readonly bool hasOutside = claims.Any(claim => claim.IsOutside);
    private long lastAgreed;

    /// <summary>Called once for each size of the growing tree, size 0 included.</summary>
    public void At(GrowingTree tree)
    {
        different.AddRange(bySize[tree.Size].Where(claim => claim.Root != tree.Root));
        if (different.Count == 0 && bySize[tree.Size].Any(claim => claim.IsOutside || !hasOutside))
        {
            lastAgreed = tree.Size;
        }
    }

    /// <summary>What is wrong, once all leaves of the log were seen.</summary>
    public IEnumerable<LedgerFault> Faults(long size)
    {
        if (different.Count > 0)
        {
            var first = different[0];
            yield return new(
                LedgerFaultCode.Different,
                first.Where,
                $"at size {LedgerWords.Number(first.Size)} it says root {first.Root}; the log here has another: "
                    + $"{LedgerWords.Entries(lastAgreed, first.Size)} were changed, or are others"
                    + More(different.Count - 1)
            );
        }

        var beyond = claims.Where(claim => claim.Size > size).ToList();
        if (beyond.MaxBy(claim => claim.Size) is { } furthest)
        {
            yield return new(
                LedgerFaultCode.Shorter,
                furthest.Where,
                $"it says size {LedgerWords.Number(furthest.Size)}, here it is {LedgerWords.Number(size)}: "
                    + $"{LedgerWords.Entries(size, furthest.Size)} {(furthest.Size - size == 1 ? "is" : "are")} missing"
                    + More(beyond.Count - 1)
            );
        }
    }

    private static string More(int count) =>
        count == 0 ? "" : $" ({LedgerWords.Number(count)} more checkpoints say so)";
}
