using System.Security.Cryptography;
using System.Text;
using ServiceRules.Application.Accounts;
using ServiceRules.Application.Due;
using ServiceRules.Application.Exporting;
using ServiceRules.Application.Filed;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Notices;
using ServiceRules.Application.Packs;
using ServiceRules.Application.Rejudging;
using ServiceRules.Application.Waiving;
using ServiceRules.Application.Working;
using ServiceRules.Evidence;
using ServiceRules.Evidence.Log;
using ServiceRules.Storage.Postgres;
using ServiceRules.Storage.Sql;
using ServiceRules.Storage.Sqlite;
using ServiceRules.Storage.Working;

namespace ServiceRules.Storage;

/// <summary>The private folder of a ledger: its database and the key that signs its checkpoints, made on first use.</summary>
public sealed class LedgerFolder : IDisposable
{
    public const string DatabaseName = "ledger.db";
    public const string KeyName = "log-key.private.pem";

    /// <summary>The connection string of a PostgreSQL database, where the log is kept there and not beside the key.</summary>
    public const string AddressName = "postgres.address";

    // The public key in exports and reports is called so too: a private one is not to be handed on for it.
    private const string OldKeyName = "log-key.pem";

    private const string LockName = "opening.lock";
    private const int OriginDigits = 16;
    private const int SecretBytes = 32;
    private const long KeyBytesMost = 64 * 1024;
    private const long AddressBytesMost = 64 * 1024;

    private readonly SqlLedgerStore store;
    private readonly ECDsa key;
    private readonly DatabaseCopy? copy;

    private LedgerFolder(
        SqlLedgerStore store,
        ECDsa key,
        bool isNew,
        string keyPath,
        DatabaseCopy? copy = null
    )
    {
        this.copy = copy;
        KeyPath = keyPath;
        this.store = store;
        this.key = key;
        IsNew = isNew;
        Signer = new EcdsaLogSigner(OriginOf(key), key);
    }

    public ILedgerStore Store => store;

    /// <summary>Who may come in to the service that keeps this ledger.</summary>
    public IAccountReading Accounts => store.Accounts;

    /// <summary>Who is still to be told of what was filed.</summary>
    public INoticeTable Notices => store.Notices;

    /// <summary>Which packs and sheets judge in the service that keeps this ledger.</summary>
    public IRulesStore Rules => store.Packs;

    /// <summary>Waivers that were entered beside the registers.</summary>
    public IWaiverReading Waivers => store.Waivers;

    /// <summary>What stands beside the log and repeats it.</summary>
    public BesideLog Beside => new(Accounts, Rules, Waivers);

    /// <summary>What protects what browsers keep for the service, the same for all instances on one database.</summary>
    public ISealedKeyStore SealedKeys => store.SealedKeys;

    /// <summary>Lists that somebody wants as files.</summary>
    public IExportStore Exports => store.Exports;

    /// <summary>How far the log was handed to the queue.</summary>
    public IWorkMarks WorkMarks => store.WorkMarks;

    /// <summary>What is to be judged again, and what came of it.</summary>
    public IRejudgingStore Rejudgings => store.Rejudgings;

    /// <summary>What falls due, and who was told of it.</summary>
    public IDueStore Due => store.Due;

    /// <summary>Opens the work that goes on behind answers; its tables are made on first use.</summary>
    /// <exception cref="LedgerStoreException">They cannot be used.</exception>
    public IWorkQueue OpenWork() => new QuartzWorkQueue(store.OpenWorkPlace(Path.GetDirectoryName(KeyPath)!));

    public ILogSigner Signer { get; }

    /// <summary>
    /// A secret that whoever has the log's key has, and nobody who has the database alone: of 32 bytes, another one for each
    /// use (HKDF, RFC 5869).
    /// </summary>
    public byte[] SecretFor(string use)
    {
        ArgumentException.ThrowIfNullOrEmpty(use);
        var own = key.ExportParameters(includePrivateParameters: true).D!;
        try
        {
            return HKDF.DeriveKey(
                HashAlgorithmName.SHA256,
                own,
                SecretBytes,
                info: Encoding.UTF8.GetBytes(use)
            );
        }
        finally
        {
            CryptographicOperations.ZeroMemory(own);
        }
    }

    internal string KeyPath { get; }

    internal LedgerHead? CopyDatabase(string file) => store.CopyTo(file);

    /// <summary>Whether the key was made just now.</summary>
    public bool IsNew { get; }

    /// <summary>
    /// Whether it is read from a copy of its database, since its folder cannot be written to: what would be filed here would be lost.
    /// </summary>
    public bool IsOfCopy => copy is not null;

    /// <summary>Whether there is a ledger in a folder.</summary>
    public static bool IsBegun(string folder) =>
        File.Exists(Path.Combine(folder, DatabaseName)) || File.Exists(Path.Combine(folder, AddressName));

    /// <param name="folder">The private folder: of the key, and of the database or of the address where it is.</param>
    /// <exception cref="LedgerStoreException">It cannot be used.</exception>
    public static LedgerFolder OpenOrCreate(string folder)
    {
        try
        {
            if (PrivateFolder.Make(folder) is { } open)
            {
                throw new LedgerStoreException(StoreTrouble.NotPrivate, open);
            }

            // Two first uses at once would make two keys, or run one migration twice.
            using var alone = ExclusiveFile.Open(Path.Combine(folder, LockName), DurableFile.Private);
            return Address(folder) is { } address ? Apart(folder, address) : BesideKey(folder);
        }
        catch (Exception failure)
            when (failure is UnauthorizedAccessException or IOException and not LedgerStoreException)
        {
            throw new LedgerStoreException(
                StoreTrouble.Failed,
                $"the ledger in `{folder}` cannot be opened: {failure.Message}",
                failure
            );
        }
    }

    /// <summary>
    /// Opens a ledger that is there, for reading: where its folder cannot be written to, as on a medium that takes nothing, a copy
    /// of its database, which goes when it is closed.
    /// </summary>
    /// <param name="folder">Its private folder.</param>
    /// <exception cref="LedgerStoreException">It cannot be used.</exception>
    public static LedgerFolder OpenToRead(string folder)
    {
        try
        {
            return OpenOrCreate(folder);
        }
        catch (LedgerStoreException failure) when (DatabaseCopy.IsNeededAfter(failure))
        {
            return OfCopy(folder);
        }
    }

    // The key stays where it is: what is copied lies somewhere else for a while.
    private static LedgerFolder OfCopy(string folder)
    {
        if (Address(folder) is { } address)
        {
            return Apart(folder, address);
        }

        var database = Path.Combine(folder, DatabaseName);
        var (key, _) = Key(KeyPathIn(folder), $"`{database}`");
        DatabaseCopy? copy = null;
        try
        {
            copy = DatabaseCopy.Of(database);
            return new LedgerFolder(SqliteLedgerStore.Open(copy.File), key, false, KeyPathIn(folder), copy);
        }
        catch
        {
            copy?.Dispose();
            key.Dispose();
            throw;
        }
    }

    private static LedgerFolder BesideKey(string folder)
    {
        var database = Path.Combine(folder, DatabaseName);
        var isBegun = File.Exists(database) && new FileInfo(database).Length > 0;
        var (key, isNew) = Key(KeyPathIn(folder), isBegun ? $"`{database}`" : null);
        try
        {
            if (!File.Exists(database))
            {
                // SQLite would make it as the umask has it.
                _ = DurableFile.WriteNew(database, [], DurableFile.Private);
            }

            return new LedgerFolder(SqliteLedgerStore.Open(database), key, isNew, KeyPathIn(folder));
        }
        catch
        {
            key.Dispose();
            throw;
        }
    }

    private static string? Address(string folder)
    {
        var path = Path.Combine(folder, AddressName);
        var file = new FileInfo(path);
        if (!file.Exists)
        {
            return null;
        }

        if (PrivateFile.Fault(path) is { } open)
        {
            throw new LedgerStoreException(StoreTrouble.NotPrivate, open);
        }

        var database = new FileInfo(Path.Combine(folder, DatabaseName));
        return database is { Exists: true, Length: > 0 }
                ? throw new LedgerStoreException(
                    StoreTrouble.Failed,
                    $"`{folder}` holds a database and the address of another; accepted: one of them"
                )
            : file.Length > AddressBytesMost
                ? throw new LedgerStoreException(
                    StoreTrouble.Failed,
                    $"`{path}` is larger than {AddressBytesMost} bytes and so no address"
                )
            : File.ReadAllText(path).Trim();
    }

    private static LedgerFolder Apart(string folder, string address)
    {
        var store = PostgresLedgerStore.Open(address);
        try
        {
            var (key, isNew) = Key(KeyPathIn(folder), store.Head is null ? null : "a log in the database");
            return new LedgerFolder(store, key, isNew, KeyPathIn(folder));
        }
        catch
        {
            store.Dispose();
            throw;
        }
    }

    private static string KeyPathIn(string folder) =>
        Path.Combine(
            folder,
            !File.Exists(Path.Combine(folder, KeyName)) && File.Exists(Path.Combine(folder, OldKeyName))
                ? OldKeyName
                : KeyName
        );

    public void Dispose()
    {
        store.Dispose();
        copy?.Dispose();
        key.Dispose();
    }

    // A name that no other log has, and that comes from the key again when only the key was saved.
    private static string OriginOf(ECDsa key)
    {
        var digest = Convert.ToHexStringLower(ContentHash.Of(key.ExportSubjectPublicKeyInfo()).ToBytes());
        return $"servicerules-ledger-{digest[..OriginDigits]}";
    }

    private static (ECDsa Key, bool IsNew) Key(string path, string? begun)
    {
        var isNew = !File.Exists(path);
        if (isNew)
        {
            if (begun is not null)
            {
                throw new LedgerStoreException(
                    StoreTrouble.Damaged,
                    $"the log's key `{path}` is missing, but {begun} is there; put the key back from its copy"
                );
            }

            using var made = ECDsa.Create(ECCurve.NamedCurves.nistP256);
            _ = DurableFile.WriteNew(
                path,
                Encoding.ASCII.GetBytes(made.ExportPkcs8PrivateKeyPem() + "\n"),
                DurableFile.Private
            );
        }

        if (new FileInfo(path).Length > KeyBytesMost)
        {
            throw new LedgerStoreException(
                StoreTrouble.Damaged,
                $"`{path}` is larger than {KeyBytesMost} bytes and so no key of a log"
            );
        }

        if (PrivateFile.Fault(path) is { } open)
        {
            throw new LedgerStoreException(StoreTrouble.NotPrivate, open);
        }

        var pem = File.ReadAllText(path);
        var key = ECDsa.Create();
        try
        {
            key.ImportFromPem(pem);
            // Refuses a key on another curve, or a public one, before anything rests on it.
            _ = new EcdsaLogSigner(OriginOf(key), key).Sign([]);
            return (key, isNew);
        }
        catch (Exception failure) when (failure is ArgumentException or CryptographicException)
        {
            key.Dispose();
            throw new LedgerStoreException(
                StoreTrouble.Damaged,
                $"`{path}` is no private key on P-256 in PEM: {failure.Message}",
                failure
            );
        }
    }
}
