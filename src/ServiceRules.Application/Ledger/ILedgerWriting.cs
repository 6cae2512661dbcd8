using ServiceRules.Application.Accounts;
using ServiceRules.Application.Packs;
using ServiceRules.Application.Rejudging;
using ServiceRules.Application.Rows;
using ServiceRules.Application.Waiving;
using ServiceRules.Evidence;

namespace ServiceRules.Application.Ledger;

/// <summary>One transaction on a log: everything in it becomes durable together, or nothing of it.</summary>
public interface ILedgerWriting : ILedgerReading
{
    /// <summary>The rows that queries read, in this transaction.</summary>
    IRowWriting Rows { get; }

    /// <summary>Accounts and acts, in this transaction.</summary>
    IAccountsInLog Accounts { get; }

    /// <summary>Which packs and sheets judge, in this transaction.</summary>
    IRulesWriting Packs { get; }

    /// <summary>Waivers that count beside the registers, in this transaction.</summary>
    IWaiverWriting Waivers { get; }

    /// <summary>What is to be judged again, in this transaction.</summary>
    IRejudgingWriting Rejudgings { get; }

    /// <summary>
    /// Runs a part that is undone alone when it throws; the rest of the transaction goes on. Where it cannot be undone alone,
    /// the failure says that it ends the transaction.
    /// </summary>
    T Within<T>(Func<T> part);

    /// <summary>The pseudonym of a person, made on first use.</summary>
    string PseudonymFor(string person);

    /// <summary>Forgets who is behind a pseudonym.</summary>
    void Forget(string pseudonym);

    /// <summary>Keeps a content; nothing happens when it is kept already.</summary>
    void Keep(ContentHash hash, ReadOnlyMemory<byte> content);

    /// <summary>Removes a content. Its entry stays.</summary>
    void Remove(ContentHash hash);

    /// <summary>Adds the next entry.</summary>
    void Append(StoredEntry entry);

    /// <summary>Stores the new head and its signed checkpoint.</summary>
    void Advance(LedgerHead head);
}
