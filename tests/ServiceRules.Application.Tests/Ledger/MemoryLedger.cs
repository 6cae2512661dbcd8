using System.Collections.Immutable;
using ServiceRules.Application.Accounts;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Packs;
using ServiceRules.Application.Rejudging;
using ServiceRules.Application.Rows;
using ServiceRules.Application.Waiving;
using ServiceRules.Evidence;

namespace ServiceRules.Application.Tests.Ledger;

/// <summary>A store whose every part can be reached and spoilt. A transaction works on a copy, kept when it ends well.</summary>
internal sealed class MemoryLedger : ILedgerStore, ILedgerWriting, ICheckpointShelf
{
    private readonly Lock _moment = new();
    private int _people;
    private Gate? _gate;

    public List<StoredEntry> Stored { get; private set; } = [];

    public SortedDictionary<string, byte[]> Kept { get; private set; } = new(StringComparer.Ordinal);

    public List<string> Notes { get; private set; } = [];

    public Dictionary<string, string> Pseudonyms { get; private set; } = new(StringComparer.Ordinal);

    public List<string> Outside { get; } = [];

    public List<NamedPerson> Named { get; } = [];

    public LedgerHead? Head { get; set; }

    public MemoryRows MemoryRows { get; private set; } = new();

    public IRowWriting Rows => MemoryRows;

    public IAccountsInLog Accounts { get; } = new NoAccounts();

    IRowReading ILedgerStore.Rows => MemoryRows;

    public IRulesWriting Packs => MemoryPacks;

    public IWaiverWriting Waivers => throw new NotSupportedException("there are no waivers here");

    public IRejudgingWriting Rejudgings =>
        throw new NotSupportedException("what is to be judged again is not kept here");

    /// <summary>Which rules judge; none before a test activates some.</summary>
    public MemoryPacks MemoryPacks { get; } = new();

    public string Place => "the shelf";

    public static string KeyOf(ContentHash hash) => hash.ToString();

    /// <summary>How often the whole log was gone through.</summary>
    public int ReadsFromTheStart { get; private set; }

    public IEnumerable<StoredEntry> Entries(long from)
    {
        ReadsFromTheStart += from == 0 ? 1 : 0;
        return Stored.Where(entry => entry.Index >= from);
    }

    public StoredEntry? Entry(long index) => Stored.Find(entry => entry.Index == index);

    public ImmutableArray<long> About(string subject) =>
        [
            .. Stored
                .Where(stored =>
                    EntryReading.TryRead(stored, out var entry, out _) && entry.Entry.Subject == subject
                )
                .Select(stored => stored.Index),
        ];

    public ReadOnlyMemory<byte>? Content(ContentHash hash) =>
        Kept.TryGetValue(KeyOf(hash), out var bytes) ? bytes : default(ReadOnlyMemory<byte>?);

    public IEnumerable<ContentHash> Contents() =>
        Kept.Keys.Select(key => ContentHash.TryParse(key, out var hash) ? hash : default);

    public IEnumerable<string> Checkpoints() => Notes;

    public string? PseudonymOf(string person) => Pseudonyms.GetValueOrDefault(person);

    public IEnumerable<NamedPerson> People() => Named;

    public string? PersonBehind(string pseudonym) =>
        Pseudonyms.FirstOrDefault(pair => pair.Value == pseudonym).Key;

    public string PseudonymFor(string person)
    {
        if (!Pseudonyms.TryGetValue(person, out var pseudonym))
        {
            _people++;
            pseudonym = $"p-{_people:x16}";
            Pseudonyms.Add(person, pseudonym);
        }

        return pseudonym;
    }

    public void Forget(string pseudonym) => Pseudonyms.Remove(PersonBehind(pseudonym)!);

    public void Keep(ContentHash hash, ReadOnlyMemory<byte> content) =>
        Kept.TryAdd(KeyOf(hash), content.ToArray());

    public void Remove(ContentHash hash) => Kept.Remove(KeyOf(hash));

    public void Append(StoredEntry entry) => Stored.Add(entry);

    public void Advance(LedgerHead head)
    {
        Head = head;
        Notes.Add(head.Note);
    }

    public T Write<T>(Func<ILedgerWriting, T> work)
    {
        IsWaitedFor = true;
        _gate?.Wait();
        lock (_moment)
        {
            var before = Copy();
            try
            {
                return work(this);
            }
            catch
            {
                Restore(before);
                throw;
            }
        }
    }

    public T Within<T>(Func<T> part) => Write(_ => part());

    public T Read<T>(Func<ILedgerReading, T> work) => Read((log, _) => work(log));

    public T Read<T>(Func<ILedgerReading, IRowReading, T> work)
    {
        lock (_moment)
        {
            return work(this, MemoryRows);
        }
    }

    public IReadOnlyList<string> Check() => [];

    public IReadOnlyList<string> CheckRows() => [];

    public void RenewRowIndexes() { }

    public IEnumerable<ShelvedCheckpoint> All() =>
        Outside.Select((note, at) => new ShelvedCheckpoint($"shelf {at}", note));

    public void Add(string note)
    {
        if (IsShelfShut)
        {
            throw new LedgerStoreException(StoreTrouble.NotShelved, "the shelf is shut");
        }

        Outside.Add(note);
    }

    /// <summary>Whether no checkpoint can be kept.</summary>
    public bool IsShelfShut { get; set; }

    /// <summary>Whether a transaction waits.</summary>
    public bool IsWaitedFor { get; private set; }

    /// <summary>Keeps transactions waiting until what is given back is opened.</summary>
    public Gate Shut() => _gate = new Gate();

    /// <summary>The same database at another time; the shelf is another place and stays.</summary>
    public MemoryLedger Copy() =>
        new()
        {
            Stored = [.. Stored],
            Kept = new(Kept, StringComparer.Ordinal),
            Notes = [.. Notes],
            Pseudonyms = new(Pseudonyms, StringComparer.Ordinal),
            Head = Head,
            MemoryRows = MemoryRows.Copy(),
            _people = _people,
        };

    public void Restore(MemoryLedger other) =>
        (Stored, Kept, Notes, Pseudonyms, Head, MemoryRows) = (
            other.Stored,
            other.Kept,
            other.Notes,
            other.Pseudonyms,
            other.Head,
            other.MemoryRows
        );
}
