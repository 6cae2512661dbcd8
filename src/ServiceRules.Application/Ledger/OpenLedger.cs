using System.Collections.Immutable;
using System.Runtime.ExceptionServices;
using ServiceRules.Application.Reports;
using ServiceRules.Application.Rows;
using ServiceRules.Evidence.Log;

namespace ServiceRules.Application.Ledger;

/// <summary>
/// A log that was held against its checkpoints and may be added to. What is filed is durable, and its checkpoint is kept
/// outside the database too, before the answer is given. Safe to share between threads, which file one after the other; any
/// number of processes may have the same log open.
/// </summary>
public sealed class OpenLedger
{
    private readonly ILedgerStore store;
    private readonly ICheckpointShelf shelf;
    private readonly ILogSigner signer;
    private readonly TimeProvider clock;
    private readonly GrowingTree tree;
    private readonly ErasuresSeen erasures = new();
    private readonly Lock filing = new();
    private readonly Lock growth = new();
    private string? shelvedNote;

    private OpenLedger(
        ILedgerStore store,
        ICheckpointShelf shelf,
        ILogSigner signer,
        TimeProvider clock,
        GrowingTree tree
    )
    {
        this.store = store;
        this.shelf = shelf;
        this.signer = signer;
        this.clock = clock;
        this.tree = tree;
    }

    /// <summary>The newest signed checkpoint that this process knows; null before the first entry.</summary>
    public LedgerHead? Head { get; private set; }

    /// <summary>The log's key, public part.</summary>
    public NoteKey Key => signer.Key;

    /// <summary>What is asked of records, units and findings. Safe to share between threads.</summary>
    public IRowReading Rows => store.Rows;

    internal ILedgerStore Store => store;

    internal DateTimeOffset Now => clock.GetUtcNow();

    /// <summary>What is stored, for reading.</summary>
    public ILedgerReading Log => store;

    /// <summary>
    /// Rebuilds the tree from the entries and goes on only if it is the stored head's and that of every checkpoint outside,
    /// and if there is one: a log whose checkpoints are missing may have been put back.
    /// </summary>
    /// <param name="store">Where the log is.</param>
    /// <param name="shelf">Where its checkpoints are kept.</param>
    /// <param name="signer">The log's key.</param>
    /// <param name="clock">The clock.</param>
    /// <param name="acceptsMissing">Whether somebody answered for it that no checkpoint is there.</param>
    /// <param name="isToRead">Whether nothing is written outside either: what is missing there stays missing.</param>
    public static LedgerOpening Open(
        ILedgerStore store,
        ICheckpointShelf shelf,
        ILogSigner signer,
        TimeProvider clock,
        bool acceptsMissing = false,
        bool isToRead = false
    )
    {
        ArgumentNullException.ThrowIfNull(store);
        ArgumentNullException.ThrowIfNull(shelf);
        ArgumentNullException.ThrowIfNull(signer);
        // The shelf first: whatever lies on it then was filed before the database is read.
        var shelved = shelf.All().ToList();
        var (history, head) = store.Read(log => (LogHistory.Read(log, signer.Key, shelved, false), log.Head));
        if (!history.Faults.IsEmpty)
        {
            return new LedgerOpening.Refused(history.Faults);
        }

        // The first filing may have been broken off before its checkpoint was kept.
        if (head is not null && history.Outside == 0 && !acceptsMissing && store.Checkpoints().Skip(1).Any())
        {
            // Others may have begun the log since the shelf was read.
            return shelf.All().Any(one => LogProofs.TryRead(one.Note, signer.Key, out _, out _))
                ? Open(store, shelf, signer, clock, isToRead: isToRead)
                : new LedgerOpening.Refused([
                    new(
                        LedgerFaultCode.CheckpointMissing,
                        shelf.Place,
                        $"no checkpoint of this log is kept here, and it has {LedgerWords.Number(head.Size)} entries: whether "
                            + "it was put back from an older copy cannot be told"
                    ),
                ]);
        }

        var ledger = new OpenLedger(store, shelf, signer, clock, history.Tree) { Head = head };
        return new LedgerOpening.Opened(
            ledger,
            [
                .. history.Remarks,
                .. ledger.Shelve(shelved, history.Outside, isToRead),
                .. ledger.BringUpRows(),
            ]
        );
    }

    /// <summary>Runs several questions on the log as it is at one moment.</summary>
    public T Read<T>(Func<ILedgerReading, T> work) => store.Read(work);

    /// <summary>The same on the log and its rows.</summary>
    public T Read<T>(Func<ILedgerReading, IRowReading, T> work) => store.Read(work);

    /// <summary>Offline proof that an entry stands under the newest checkpoint: text of `c2sp.org/tlog-proof@v1`.</summary>
    /// <exception cref="ArgumentOutOfRangeException">There is no such entry.</exception>
    public string Prove(long index)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(index);
        lock (growth)
        {
            ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(index, Head?.Size ?? 0);
            return LogProofs.Inclusion(index, tree.Leaves, Head!);
        }
    }

    /// <summary>The same with the entry inside, so that one file is enough to check the proof.</summary>
    /// <exception cref="ArgumentOutOfRangeException">There is no such entry.</exception>
    public string ProveWithEntry(FiledEntry entry)
    {
        ArgumentNullException.ThrowIfNull(entry);
        lock (growth)
        {
            ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(
                entry.Index,
                Head?.Size ?? 0,
                nameof(entry)
            );
            return LogProofs.Inclusion(entry, tree.Leaves, Head!.Note);
        }
    }

    /// <summary>What a report carries of a filing of its record and assessment.</summary>
    public FilingProofs Proofs(FilingOutcome.Filed filed)
    {
        var (record, assessment) = FileRecord.Parts(filed);
        return Proofs(record, assessment);
    }

    /// <summary>What a report carries of its record and assessment.</summary>
    public FilingProofs Proofs(FiledEntry record, FiledEntry assessment)
    {
        ArgumentNullException.ThrowIfNull(record);
        ArgumentNullException.ThrowIfNull(assessment);
        // One head for all of them, whatever is filed meanwhile, here or at another instance.
        if (Head is not { } head)
        {
            throw new ArgumentOutOfRangeException(nameof(record));
        }

        var newest = RecordVersions
            .Of(Log, record.Entry.Subject)
            .All.LastOrDefault(version => version.Index < head.Size);
        lock (growth)
        {
            return new(
                record.Bytes,
                LogProofs.Inclusion(record.Index, tree.Leaves, head),
                assessment.Bytes,
                LogProofs.Inclusion(assessment.Index, tree.Leaves, head),
                Key.ToPem()
            )
            {
                Newer =
                    newest is not null && newest.Index > record.Index
                        ? new FiledNewer(newest.Bytes, LogProofs.Inclusion(newest.Index, tree.Leaves, head))
                        : null,
            };
        }
    }

    /// <summary>Hashes that prove that the log of today begins with the one of <paramref name="oldSize"/> entries.</summary>
    public ImmutableArray<TreeHash> ProveGrowth(long oldSize)
    {
        lock (growth)
        {
            return MerkleTree.ConsistencyProof(tree.Leaves, oldSize);
        }
    }

    /// <summary>Runs one filing: decided, written and made durable in one transaction.</summary>
    internal FilingOutcome File(Func<ILedgerWriting, FilingPlan> decide, bool bringsBack = false)
    {
        var attempts = FileTogether([
            log =>
                decide(log) switch
                {
                    FilingPlan.File file => file with { BringsBack = bringsBack },
                    var other => other,
                },
        ]);
        switch (attempts[0])
        {
            case FilingAttempt.Came came:
                return came.Outcome;
            case FilingAttempt.Failed failed:
                ExceptionDispatchInfo.Throw(failed.Failure);
                throw failed.Failure;
            default:
                throw new InvalidOperationException("an unknown outcome of a filing");
        }
    }

    /// <summary>
    /// Runs several filings in one transaction under one checkpoint: each sees those before it, and one that fails is
    /// undone alone. Where the transaction itself fails, all do.
    /// </summary>
    internal ImmutableArray<FilingAttempt> FileTogether(
        IReadOnlyList<Func<ILedgerWriting, FilingPlan>> decisions
    )
    {
        lock (filing)
        {
            try
            {
                var (attempts, added, head) = store.Write(writing => Write(writing, decisions));
                if (added.Count > 0)
                {
                    Grow(added.Select(entry => MerkleTree.LeafHash(entry.Bytes.Span)), head!);
                }

                return attempts.Any(IsFiled) ? Shelved(attempts) : attempts;
            }
            catch (BrokenLogException broken)
            {
                return Alike(decisions, new FilingAttempt.Came(new FilingOutcome.Broken(broken.Fault)));
            }
            catch (LedgerStoreException failure)
            {
                return Alike(decisions, new FilingAttempt.Failed(failure));
            }
        }
    }

    private static ImmutableArray<FilingAttempt> Alike(
        IReadOnlyList<Func<ILedgerWriting, FilingPlan>> decisions,
        FilingAttempt attempt
    ) => [.. decisions.Select(_ => attempt)];

    private static bool IsFiled(FilingAttempt attempt) =>
        attempt is FilingAttempt.Came { Outcome: FilingOutcome.Filed };

    // Who was refused, or failed, is told why: no checkpoint would change that.
    private ImmutableArray<FilingAttempt> Shelved(ImmutableArray<FilingAttempt> attempts)
    {
        try
        {
            Shelve();
            return attempts;
        }
        catch (LedgerStoreException failure)
        {
            return
            [
                .. attempts.Select(attempt => IsFiled(attempt) ? new FilingAttempt.Failed(failure) : attempt),
            ];
        }
    }

    // What was filed before there were rows, or while they were being made anew, is missing from them until then.
    private ImmutableArray<string> BringUpRows()
    {
        try
        {
            if (Rows.Covered < (Head?.Size ?? 0))
            {
                var following = new FollowLog(this);
                _ = following.BringUp();
                return Remarks(following.Lost);
            }

            return [];
        }
        catch (LedgerStoreException failure)
        {
            return
            [
                $"lists and searches are not complete, the next opening completes them: {failure.Message}",
            ];
        }
    }

    private static ImmutableArray<string> Remarks(ImmutableArray<LedgerFault> lost) =>
        lost.IsEmpty
            ? []
            :
            [
                $"what lists and searches are made of could not be made anew of {LedgerWords.Number(lost.Length)} versions, whose contents "
                    + $"are lost; it stands as it was. First {lost[0]}. `servicerules ledger mend --from COPY` puts contents back from a copy",
            ];

    // What an answer rests on is kept outside before it is given, whoever filed it.
    private void Shelve()
    {
        if (Head is { } head && head.Note != shelvedNote)
        {
            shelf.Add(head.Note);
            shelvedNote = head.Note;
        }
    }

    private void Grow(IEnumerable<TreeHash> leaves, LedgerHead head)
    {
        lock (growth)
        {
            foreach (var leaf in leaves)
            {
                tree.Add(leaf);
            }

            Head = head;
        }
    }

    // A stop between a commit and its checkpoint's copy outside leaves the copy to the next start.
    private ImmutableArray<string> Shelve(List<ShelvedCheckpoint> shelved, int speaking, bool isToRead)
    {
        if (Head is null || shelved.Any(one => one.Note == Head.Note))
        {
            shelvedNote = Head?.Note;
            return [];
        }

        if (!isToRead)
        {
            Shelve();
        }

        return speaking == 0
            ?
            [
                $"no checkpoint of this log was kept in `{shelf.Place}`, so nothing outside the database speaks for its "
                    + $"{LedgerWords.Number(Head.Size)} entries{(isToRead ? "" : "; one is kept there from now on")}",
            ]
            : [];
    }

    private (ImmutableArray<FilingAttempt> Attempts, List<FiledEntry> Added, LedgerHead? Head) Write(
        ILedgerWriting writing,
        IReadOnlyList<Func<ILedgerWriting, FilingPlan>> decisions
    )
    {
        CatchUp(writing);
        erasures.Follow(writing);
        var batch = new FilingBatch(writing, erasures, tree.Size, clock);
        var attempts = decisions.Select(batch.Attempt).ToList();
        var head = Head;
        if (batch.Added.Count > 0)
        {
            if (writing.Rows.Covered == tree.Size)
            {
                // Otherwise they are to be brought up first, and are not called whole before.
                writing.Rows.Cover(tree.Size + batch.Added.Count);
            }

            var root = tree.RootWith(batch.Added.Select(entry => MerkleTree.LeafHash(entry.Bytes.Span)));
            var size = tree.Size + batch.Added.Count;
            head = new LedgerHead(size, root, LogProofs.Sign(signer, size, root));
            writing.Advance(head);
        }

        return ([.. attempts.Select(attempt => attempt(head))], batch.Added, head);
    }

    // Another process may have filed since: its entries are taken over, if they lead to the head it left.
    private void CatchUp(ILedgerWriting writing)
    {
        var stored = writing.Head;
        var size = stored?.Size ?? 0;
        if (size < tree.Size)
        {
            throw new BrokenLogException(
                new(
                    LedgerFaultCode.Shorter,
                    "the database",
                    $"it has become shorter while it was open: {LedgerWords.Number(size)} entries, "
                        + $"{LedgerWords.Number(tree.Size)} before"
                )
            );
        }

        var further = size > tree.Size ? writing.Entries(tree.Size).ToList() : [];
        var leaves = further.Select(entry => MerkleTree.LeafHash(entry.Bytes.Span)).ToList();
        var root = tree.RootWith(leaves);
        if (size != tree.Size + leaves.Count || (stored is not null && stored.Root != root))
        {
            throw new BrokenLogException(
                new(
                    LedgerFaultCode.Head,
                    "the database",
                    $"its head says size {LedgerWords.Number(size)} and root {stored?.Root}, its entries come to size "
                        + $"{LedgerWords.Number(tree.Size + leaves.Count)} and root {root}"
                )
            );
        }

        if (
            stored is not null
            && stored.Note != Head?.Note
            && !LogProofs.TryRead(stored.Note, signer.Key, out _, out var why)
        )
        {
            // Two instances begun on one empty database, each with a key of its own: there is one log, and it is not ours.
            throw new BrokenLogException(new(LedgerFaultCode.Checkpoint, "the database", why));
        }

        if (stored is not null)
        {
            Grow(leaves, stored);
        }
    }
}
