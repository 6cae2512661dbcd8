namespace ServiceRules.Application.Ledger;

/// <summary>The files of an exported log.</summary>
public static class ExportFiles
{
    /// <summary>One entry a line: the line without its line break is the leaf.</summary>
    public const string Entries = "entries.jsonl";

    /// <summary>Folder of the contents; each is named by the 64 digits of its SHA-256.</summary>
    public const string Contents = "contents";

    /// <summary>What `sha256sum --check` reads.</summary>
    public const string ContentHashes = "contents.sha256";

    /// <summary>Its line for one content.</summary>
    internal static string HashLine(string name) => $"{name}  {Contents}/{name}\n";

    /// <summary>Every signed checkpoint, each followed by a blank line.</summary>
    public const string Checkpoints = "checkpoints.txt";

    /// <summary>The newest signed checkpoint alone.</summary>
    public const string Head = "checkpoint.txt";

    /// <summary>The log's public key, SubjectPublicKeyInfo in PEM.</summary>
    public const string KeyPem = "log-key.pem";

    /// <summary>The log's key as C2SP signed-note writes it: name, id, key.</summary>
    public const string KeyLine = "log-key.txt";

    /// <summary>Bytes of one line of entries: several times the longest entry.</summary>
    public const int EntryBytes = 64 * 1024;

    /// <summary>Bytes of all entries, which are held in memory: more than two million of them.</summary>
    public const long EntriesBytes = 1024L * 1024 * 1024;

    /// <summary>Bytes of one content: several times the longest report.</summary>
    public const int ContentBytes = 128 * 1024 * 1024;

    /// <summary>Bytes of a file of checkpoints: a million of them and more.</summary>
    public const int CheckpointBytes = 512 * 1024 * 1024;
}
