using ServiceRules.Evidence;
using ServiceRules.Formats.Ledger;

namespace ServiceRules.Application.Ledger;

/// <summary>The erasures of an open log: each entry is looked at once, however much is filed.</summary>
internal sealed class ErasuresSeen
{
    private readonly HashSet<ContentHash> contents = [];
    private readonly HashSet<ContentHash> forgotten = [];
    private long next;

    /// <summary>Whether somebody was ever forgotten.</summary>
    public bool Any { get; private set; }

    /// <summary>What erasures removed, and what went when its time was over.</summary>
    public IReadOnlySet<ContentHash> Contents => contents;

    /// <summary>What erasures removed: it names somebody who was forgotten.</summary>
    public IReadOnlySet<ContentHash> Forgotten => forgotten;

    /// <summary>Looks at the entries that came since, up to where the log ends now.</summary>
    public void Follow(ILedgerReading log)
    {
        var size = log.Head?.Size ?? 0;
        var further = size > next ? Erasures.Entries(log, next).ToList() : [];
        contents.UnionWith(Erasures.Of(log, further));
        forgotten.UnionWith(Erasures.Of(log, further.Where(entry => entry.Entry.Kind is EntryKind.Erasure)));
        Any |= further.Exists(entry => entry.Entry.Kind is EntryKind.Erasure);
        next = size;
    }
}
