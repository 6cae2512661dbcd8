namespace ServiceRules.Application.Ledger;

/// <summary>The kinds of fault of a log.</summary>
public static class LedgerFaultCode
{
    /// <summary>An entry is not in its one spelling, or says what no entry may say.</summary>
    public const string Entry = "entry";

    /// <summary>An entry is not there.</summary>
    public const string EntryMissing = "entry-missing";

    /// <summary>A content that an entry names is not there, and no erasure took it.</summary>
    public const string ContentMissing = "content-missing";

    /// <summary>A content has other bytes than its entry says.</summary>
    public const string ContentChanged = "content-changed";

    /// <summary>A content is not what its entry says it is.</summary>
    public const string Content = "content";

    /// <summary>An entry names another that is not there, or is another than named.</summary>
    public const string Reference = "reference";

    /// <summary>The stored head is not that of the entries.</summary>
    public const string Head = "head";

    /// <summary>A checkpoint cannot be read, or nobody who may has signed it.</summary>
    public const string Checkpoint = "checkpoint";

    /// <summary>No checkpoint of the log is kept where its checkpoints are said to be.</summary>
    public const string CheckpointMissing = "checkpoint-missing";

    /// <summary>A cosignature in the name of a witness that was asked for does not hold.</summary>
    public const string Cosignature = "cosignature";

    /// <summary>No checkpoint outside is cosigned by a witness that was asked for.</summary>
    public const string CosignatureMissing = "cosignature-missing";

    /// <summary>The log is shorter than a checkpoint says.</summary>
    public const string Shorter = "shorter-history";

    /// <summary>The log is another than the one a checkpoint speaks of.</summary>
    public const string Different = "different-history";

    /// <summary>Another name stands behind a pseudonym than the one it was made for.</summary>
    public const string Person = "person";

    /// <summary>The store found its own files damaged.</summary>
    public const string Store = "store";

    /// <summary>What lists and searches are made of is not what the log and its contents come to.</summary>
    public const string Rows = "rows";

    /// <summary>The table of acts beside the log says otherwise than the log.</summary>
    public const string Act = "act";

    /// <summary>The table of which rules judge says otherwise than the log.</summary>
    public const string Activation = "activation";

    /// <summary>The table of waivers that were entered beside the registers says otherwise than the log.</summary>
    public const string Waiver = "waiver";
}
