using System.Collections.Immutable;
using ServiceRules.Application.Accounts;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Packs;
using ServiceRules.Application.Rejudging;
using ServiceRules.Application.Rows;
using ServiceRules.Application.Waiving;
using ServiceRules.Evidence;

namespace ServiceRules.Application.Tests.Ledger;

/// <summary>
/// A store of which one call of a transaction fails, the n-th, as a full disk or a lost share would: once, or from then on.
/// </summary>
internal sealed class FailingLedger(MemoryLedger inner, int failing, bool forGood = false)
    : ILedgerStore,
        ILedgerWriting
{
    private int _calls;

    public bool HasFailed { get; private set; }

    /// <summary>Whether what fails ends the transaction, and not only the part that met it.</summary>
    public bool EndsTransaction { get; init; }

    public IRowWriting Rows => new FailingRows(inner.Rows, Counted);

    public IAccountsInLog Accounts => inner.Accounts;

    public IRulesWriting Packs => inner.Packs;

    public IWaiverWriting Waivers => inner.Waivers;

    public IRejudgingWriting Rejudgings => inner.Rejudgings;

    IRowReading ILedgerStore.Rows => inner.MemoryRows;

    public void Mend() => _calls = int.MinValue;

    public T Within<T>(Func<T> part) => inner.Within(() => Counted(part));

    public LedgerHead? Head => inner.Head;

    public IEnumerable<StoredEntry> Entries(long from) => inner.Entries(from);

    public StoredEntry? Entry(long index) => inner.Entry(index);

    public ImmutableArray<long> About(string subject) => Counted(() => inner.About(subject));

    public ReadOnlyMemory<byte>? Content(ContentHash hash) => inner.Content(hash);

    public IEnumerable<ContentHash> Contents() => inner.Contents();

    public IEnumerable<string> Checkpoints() => inner.Checkpoints();

    public string? PseudonymOf(string person) => inner.PseudonymOf(person);

    public IEnumerable<NamedPerson> People() => inner.People();

    public string? PersonBehind(string pseudonym) => inner.PersonBehind(pseudonym);

    public string PseudonymFor(string person) => Counted(() => inner.PseudonymFor(person));

    public void Forget(string pseudonym) => Counted(() => inner.Forget(pseudonym));

    public void Keep(ContentHash hash, ReadOnlyMemory<byte> content) =>
        Counted(() => inner.Keep(hash, content));

    public void Remove(ContentHash hash) => Counted(() => inner.Remove(hash));

    public void Append(StoredEntry entry) => Counted(() => inner.Append(entry));

    public void Advance(LedgerHead head) => Counted(() => inner.Advance(head));

    public T Write<T>(Func<ILedgerWriting, T> work) => inner.Write(_ => Counted(() => work(this)));

    public T Read<T>(Func<ILedgerReading, T> work) => inner.Read(_ => work(this));

    public T Read<T>(Func<ILedgerReading, IRowReading, T> work) => inner.Read((_, rows) => work(this, rows));

    public IReadOnlyList<string> Check() => [];

    public IReadOnlyList<string> CheckRows() => [];

    public void RenewRowIndexes() { }

    private void Counted(Action call) =>
        Counted(() =>
        {
            call();
            return true;
        });

    private T Counted<T>(Func<T> call)
    {
        _calls++;
        if (_calls == failing || (forGood && _calls > failing))
        {
            HasFailed = true;
            throw new LedgerStoreException(StoreTrouble.Full, "the disk is full")
            {
                EndsTransaction = EndsTransaction,
            };
        }

        return call();
    }
}
