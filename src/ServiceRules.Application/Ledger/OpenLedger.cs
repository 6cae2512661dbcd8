using System.Collections.Immutable;
using ServiceRules.Application.Reports;
using ServiceRules.Evidence;
using ServiceRules.Evidence.Log;

namespace ServiceRules.Application.Ledger;

/// <summary>
/// A log that was held against its checkpoints and may be added to. What is filed is durable, and its checkpoint is kept
/// outside the database too, before the answer is given. Not safe to share between threads; any number of processes may
/// have the same log open.
/// </summary>
public sealed class OpenLedger
{
    private readonly ILedgerStore store;
    private readonly ICheckpointShelf shelf;
    private readonly ILogSigner signer;
    private readonly TimeProvider clock;
    private readonly GrowingTree tree;
    private readonly ErasuresSeen erasures = new();

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

    /// <summary>Whether somebody answers for it that what an erasure removed is filed again.</summary>
    public bool BringsBack { get; set; }

    /// <summary>The log's key, public part.</summary>
    public NoteKey Key => signer.Key;

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
    public static LedgerOpening Open(
        ILedgerStore store,
        ICheckpointShelf shelf,
        ILogSigner signer,
        TimeProvider clock,
        bool acceptsMissing = false
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
                ? Open(store, shelf, signer, clock)
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
            [.. history.Remarks, .. ledger.Shelve(shelved, history.Outside)]
        );
    }

    /// <summary>Runs several questions on the log as it is at one moment.</summary>
    public T Read<T>(Func<ILedgerReading, T> work) => store.Read(work);

    /// <summary>Offline proof that an entry stands under the newest checkpoint: text of `c2sp.org/tlog-proof@v1`.</summary>
    /// <exception cref="ArgumentOutOfRangeException">There is no such entry.</exception>
    public string Prove(long index)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(index);
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(index, Head?.Size ?? 0);
        return LogProofs.Inclusion(index, tree.Leaves, Head!.Note);
    }

    /// <summary>The same with the entry inside, so that one file is enough to check the proof.</summary>
    public string ProveWithEntry(FiledEntry entry)
    {
        ArgumentNullException.ThrowIfNull(entry);
        return LogProofs.Inclusion(entry, tree.Leaves, Head!.Note);
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
        var newest = RecordVersions.Of(Log, record.Entry.Subject).Latest;
        return new(record.Bytes, Prove(record.Index), assessment.Bytes, Prove(assessment.Index), Key.ToPem())
        {
            Newer =
                newest is not null && newest.Index > record.Index
                    ? new FiledNewer(newest.Bytes, Prove(newest.Index))
                    : null,
        };
    }

    /// <summary>Hashes that prove that the log of today begins with the one of <paramref name="oldSize"/> entries.</summary>
    public ImmutableArray<TreeHash> ProveGrowth(long oldSize) =>
        MerkleTree.ConsistencyProof(tree.Leaves, oldSize);

    /// <summary>Runs one filing: decided, written and made durable in one transaction.</summary>
    internal FilingOutcome File(Func<ILedgerReading, FilingPlan> decide)
    {
        try
        {
            var outcome = store.Write(writing => Write(writing, decide));
            if (outcome is FilingOutcome.Filed { IsNew: true } filed)
            {
                foreach (var placed in filed.Entries.Where(placed => placed.IsNew))
                {
                    tree.Add(MerkleTree.LeafHash(placed.Entry.Bytes.Span));
                }

                Head = filed.Head;
                shelf.Add(filed.Head.Note);
            }

            return outcome;
        }
        catch (BrokenLogException broken)
        {
            return new FilingOutcome.Broken(broken.Fault);
        }
        catch (UnfitEntryException unfit)
        {
            return new FilingOutcome.Refused(unfit.Refusal);
        }
    }

    // A stop between a commit and its checkpoint's copy outside leaves the copy to the next start.
    private ImmutableArray<string> Shelve(List<ShelvedCheckpoint> shelved, int speaking)
    {
        if (Head is null || shelved.Any(one => one.Note == Head.Note))
        {
            return [];
        }

        shelf.Add(Head.Note);
        return speaking == 0
            ?
            [
                $"no checkpoint of this log was kept in `{shelf.Place}`, so nothing outside the database speaks for its "
                    + $"{LedgerWords.Number(Head.Size)} entries; one is kept there from now on",
            ]
            : [];
    }

    private FilingOutcome Write(ILedgerWriting writing, Func<ILedgerReading, FilingPlan> decide)
    {
        CatchUp(writing);
        erasures.Follow(writing);
        return decide(writing) switch
        {
            FilingPlan.Refuse refuse => new FilingOutcome.Refused(refuse.Refusal),
            FilingPlan.File file => Write(writing, file),
            _ => throw new InvalidOperationException("an unknown plan"),
        };
    }

    private FilingOutcome.Filed Write(ILedgerWriting writing, FilingPlan.File plan)
    {
        var firstNamed = FirstNamed(writing, plan);
        var placed = Placed(writing, plan);
        var added = placed.Where(one => one.IsNew).Select(one => one.Entry).ToList();
        if (added.Count == 0)
        {
            return new(placed, Head!);
        }

        if (!BringsBack && ReturnedContent.RefusalOf(erasures.Contents, plan) is { } returned)
        {
            throw new UnfitEntryException(returned);
        }

        foreach (var content in plan.Beside)
        {
            writing.Keep(ContentHash.Of(content.Span), content);
        }

        foreach (var entry in added)
        {
            writing.Append(new StoredEntry(entry.Index, entry.Bytes));
        }

        foreach (var gone in plan.Removed)
        {
            writing.Remove(gone);
        }

        if (plan.Forgotten is { } pseudonym)
        {
            writing.Forget(pseudonym);
        }

        var root = tree.RootWith(added.Select(entry => MerkleTree.LeafHash(entry.Bytes.Span)));
        var head = new LedgerHead(
            tree.Size + added.Count,
            root,
            LogProofs.Sign(signer, tree.Size + added.Count, root)
        );
        writing.Advance(head);
        return new(placed, head) { FirstNamed = firstNamed };
    }

    // Who is behind a pseudonym that is gone cannot be told, not even from the name; so it is told that they may be back.
    private ImmutableArray<string> FirstNamed(ILedgerWriting writing, FilingPlan.File plan)
    {
        var unknown = plan
            .Parts.OfType<FilingPart.New>()
            .Select(part => part.Draft.Person)
            .OfType<string>()
            .Distinct(StringComparer.Ordinal)
            .Where(person => writing.PseudonymOf(person) is null)
            .ToImmutableArray();
        return unknown.IsEmpty || !erasures.Any ? [] : unknown;
    }

    private ImmutableArray<FilingOutcome.Placed> Placed(ILedgerWriting writing, FilingPlan.File plan)
    {
        var placed = ImmutableArray.CreateBuilder<FilingOutcome.Placed>();
        var index = (long)tree.Size;
        foreach (var part in plan.Parts)
        {
            switch (part)
            {
                case FilingPart.Standing standing:
                    placed.Add(new(standing.Entry, false));
                    break;
                case FilingPart.New { Draft: var draft }:
                    writing.Keep(draft.Hash, draft.Content);
                    var pseudonym = draft.Person is { } person ? writing.PseudonymFor(person) : null;
                    placed.Add(new(EntryWriting.Write(draft, index, clock.GetUtcNow(), pseudonym), true));
                    index++;
                    break;
                default:
                    throw new InvalidOperationException("an unknown part of a filing");
            }
        }

        return placed.ToImmutable();
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

        foreach (var entry in size > tree.Size ? writing.Entries(tree.Size) : [])
        {
            tree.Add(MerkleTree.LeafHash(entry.Bytes.Span));
        }

        if (size != tree.Size || (stored is not null && stored.Root != tree.Root))
        {
            throw new BrokenLogException(
                new(
                    LedgerFaultCode.Head,
                    "the database",
                    $"its head says size {LedgerWords.Number(size)} and root {stored?.Root}, its entries come to size "
                        + $"{LedgerWords.Number(tree.Size)} and root {tree.Root}"
                )
            );
        }

        Head = stored;
    }
}
