using System.Collections.Immutable;
using ServiceRules.Application.Ledger;
using ServiceRules.Evidence;

namespace ServiceRules.Application.Tests.Ledger;

/// <summary>A log that is read up to its checkpoints, as from a disk that fails there.</summary>
internal sealed class UnreadableCheckpoints(ILedgerReading inner) : ILedgerReading
{
    public LedgerHead? Head => inner.Head;

    public IEnumerable<StoredEntry> Entries(long from) => inner.Entries(from);

    public StoredEntry? Entry(long index) => inner.Entry(index);

    public ImmutableArray<long> About(string subject) => inner.About(subject);

    public ReadOnlyMemory<byte>? Content(ContentHash hash) => inner.Content(hash);

    public IEnumerable<ContentHash> Contents() => inner.Contents();

    public IEnumerable<string> Checkpoints() => throw new IOException("the disk fails here");

    public string? PseudonymOf(string person) => inner.PseudonymOf(person);

    public IEnumerable<NamedPerson> People() => inner.People();

    public string? PersonBehind(string pseudonym) => inner.PersonBehind(pseudonym);
}
