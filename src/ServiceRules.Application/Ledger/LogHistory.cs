using System.Collections.Immutable;
using ServiceRules.Evidence.Log;

namespace ServiceRules.Application.Ledger;

/// <summary>The tree that the entries come to, and how it stands to all that was ever signed about it.</summary>
/// <param name="Tree">The tree.</param>
/// <param name="Faults">Where it does not stand to what was signed.</param>
/// <param name="Remarks">What of others was passed over.</param>
/// <param name="Outside">How many checkpoints outside the log speak of it.</param>
internal sealed record LogHistory(
    GrowingTree Tree,
    ImmutableArray<LedgerFault> Faults,
    ImmutableArray<string> Remarks,
    int Outside
)
{
    private const string Database = "the stored head";

    /// <summary>Reads all entries, never their contents.</summary>
    /// <param name="withAll">Whether every checkpoint stored with the entries is looked at, not the newest alone.</param>
    public static LogHistory Read(
        ILedgerReading log,
        NoteKey key,
        IReadOnlyCollection<ShelvedCheckpoint> shelved,
        bool withAll
    )
    {
        var faults = ImmutableArray.CreateBuilder<LedgerFault>();
        var remarks = ImmutableArray.CreateBuilder<string>();
        var head = log.Head;
        var within = withAll
            ? log.Checkpoints().Select((note, at) => new ShelvedCheckpoint(Stored(at), note))
            : [];
        ShelvedCheckpoint[] newest = head is null ? [] : [new(Database, head.Note)];
        var claims = Claims(newest.Concat(within), false, key, faults, remarks);
        claims.AddRange(Claims(shelved.Where(one => !one.IsRemnant), true, key, faults, remarks));
        foreach (var remnant in shelved.Where(one => one.IsRemnant))
        {
            if (TornCheckpoint.IsOfOurs(remnant.Note, log))
            {
                remarks.Add(TornCheckpoint.Remark(remnant));
            }
            else
            {
                faults.Add(TornCheckpoint.Fault(remnant, head?.Size ?? 0));
            }
        }

        var comparison = new HistoryComparison(claims);
        var tree = Grow(log, comparison, faults);
        if (
            head?.Size != tree.Size && !(head is null && tree.Size == 0)
            || (head is not null && head.Root != tree.Root)
        )
        {
            faults.Add(
                new(
                    LedgerFaultCode.Head,
                    Database,
                    $"it says size {LedgerWords.Number(head?.Size ?? 0)} and root {head?.Root.ToString() ?? "of nothing"}; the "
                        + $"entries come to size {LedgerWords.Number(tree.Size)} and root {tree.Root}"
                )
            );
        }

        if (
            head is not null
            && claims.FirstOrDefault(claim => claim.Where == Database) is { } said
            && (said.Size != head.Size || said.Root != head.Root)
        )
        {
            faults.Add(
                new(LedgerFaultCode.Head, Database, "its signed checkpoint speaks of another size or root")
            );
        }

        faults.AddRange(comparison.Faults(tree.Size));
        return new(tree, faults.ToImmutable(), remarks.ToImmutable(), claims.Count(claim => claim.IsOutside));
    }

    private static string Stored(int at) => $"stored checkpoint {LedgerWords.Number(at + 1)}";

    private static List<ClaimedTree> Claims(
        IEnumerable<ShelvedCheckpoint> notes,
        bool isOutside,
        NoteKey key,
        ImmutableArray<LedgerFault>.Builder faults,
        ImmutableArray<string>.Builder remarks
    )
    {
        var claims = new List<ClaimedTree>();
        foreach (var shelved in notes)
        {
            if (LogProofs.TryRead(shelved.Note, key, out var checkpoint, out var why))
            {
                claims.Add(new(shelved.Where, checkpoint.Size, checkpoint.Root, isOutside));
            }
            else if (shelved.IsOfOthers && !LogProofs.SpeaksOf(shelved.Note, key))
            {
                remarks.Add($"{shelved.Where}: {why}; it counts for nothing here");
            }
            else
            {
                faults.Add(new(LedgerFaultCode.Checkpoint, shelved.Where, why));
            }
        }

        return claims;
    }

    private static GrowingTree Grow(
        ILedgerReading log,
        HistoryComparison comparison,
        ImmutableArray<LedgerFault>.Builder faults
    )
    {
        var tree = new GrowingTree();
        comparison.At(tree);
        foreach (var entry in log.Entries(0))
        {
            if (entry.Index != tree.Size)
            {
                faults.Add(
                    new(
                        LedgerFaultCode.EntryMissing,
                        LedgerWords.Entry(tree.Size),
                        $"after it comes {LedgerWords.Entry(entry.Index)}"
                    )
                );
                break;
            }

            tree.Add(MerkleTree.LeafHash(entry.Bytes.Span));
            comparison.At(tree);
        }

        return tree;
    }
}
