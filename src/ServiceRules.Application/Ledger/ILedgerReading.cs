using System.Collections.Immutable;
using ServiceRules.Evidence;

namespace ServiceRules.Application.Ledger;

/// <summary>What a stored log answers. Nothing it gives is checked.</summary>
public interface ILedgerReading
{
    /// <summary>The head as it was stored with the last filing; null before the first.</summary>
    LedgerHead? Head { get; }

    /// <summary>Entries in the order of the log, beginning with the one at <paramref name="from"/>.</summary>
    IEnumerable<StoredEntry> Entries(long from);

    /// <summary>One entry, or null.</summary>
    StoredEntry? Entry(long index);

    /// <summary>Places of the entries about a subject, in the order of the log.</summary>
    ImmutableArray<long> About(string subject);

    /// <summary>The bytes stored under a hash, whatever they are now; null when there are none.</summary>
    ReadOnlyMemory<byte>? Content(ContentHash hash);

    /// <summary>The hashes under which something is stored, in ordinal order.</summary>
    IEnumerable<ContentHash> Contents();

    /// <summary>Every signed checkpoint, smallest first.</summary>
    IEnumerable<string> Checkpoints();

    /// <summary>The pseudonym of a person; null when the person has none (any more).</summary>
    string? PseudonymOf(string person);

    /// <summary>Everybody who is known by name, in the order of pseudonyms.</summary>
    IEnumerable<NamedPerson> People();

    /// <summary>The person behind a pseudonym; null when forgotten or never known.</summary>
    string? PersonBehind(string pseudonym);
}
