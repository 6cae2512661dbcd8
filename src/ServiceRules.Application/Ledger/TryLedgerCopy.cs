using ServiceRules.Evidence.Log;

namespace ServiceRules.Application.Ledger;

/// <summary>
/// Verifies a copy of a log, which is older than what was filed since: it has to be sound as far as it goes, and a beginning
/// of the log.
/// </summary>
public static class TryLedgerCopy
{
    /// <param name="copy">The copy, open.</param>
    /// <param name="key">The key that it has beside it.</param>
    /// <param name="outside">Checkpoints kept apart from both.</param>
    /// <param name="log">The log that it was made of; null where that is lost.</param>
    /// <param name="beside">What the copy holds beside its log.</param>
    public static LedgerCopyTried Try(
        ILedgerStore copy,
        NoteKey key,
        IReadOnlyCollection<ShelvedCheckpoint> outside,
        ILedgerReading? log,
        BesideLog? beside = null
    )
    {
        ArgumentNullException.ThrowIfNull(copy);
        ArgumentNullException.ThrowIfNull(outside);
        var damage = copy.Check();
        return copy.Read(
            (held, rows) =>
            {
                var size = held.Head?.Size ?? 0;
                var known = outside
                    .Select(one => (One: one, Size: SizeOf(one, key)))
                    .Where(one => one.Size is not null)
                    .ToList();
                var verified = new VerifyLedger(held, key) { Rows = rows, Beside = beside }.Verify(
                    [.. outside.Except(known.Where(one => one.Size > size).Select(one => one.One))],
                    damage
                );
                return new LedgerCopyTried(
                    verified,
                    known.Select(one => one.Size!.Value).Append(log?.Head?.Size ?? 0).Append(size).Max(),
                    log is null ? null : Apart(verified, log)
                );
            }
        );
    }

    private static LedgerFault? Apart(LedgerVerified copy, ILedgerReading log)
    {
        var tree = new GrowingTree();
        foreach (var entry in log.Entries(0))
        {
            if (tree.Size == copy.Size)
            {
                break;
            }

            tree.Add(MerkleTree.LeafHash(entry.Bytes.Span));
        }

        return tree.Size < copy.Size
                ? new(
                    LedgerFaultCode.Shorter,
                    "the log",
                    $"it has {LedgerWords.Number(tree.Size)} entries, the copy {LedgerWords.Number(copy.Size)}"
                )
            : tree.Root != copy.Root
                ? new(
                    LedgerFaultCode.Head,
                    "the log",
                    $"its first {LedgerWords.Number(copy.Size)} entries come to root {tree.Root}, the copy to {copy.Root}"
                )
            : null;
    }

    private static long? SizeOf(ShelvedCheckpoint one, NoteKey key) =>
        LogProofs.TryRead(one.Note, key, out var checkpoint, out _) ? checkpoint.Size : null;
}
