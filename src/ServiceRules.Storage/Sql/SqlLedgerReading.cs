using System.Collections.Immutable;
using System.Data.Common;
using ServiceRules.Application.Ledger;
using ServiceRules.Evidence;
using ServiceRules.Evidence.Log;

namespace ServiceRules.Storage.Sql;

/// <summary>What the database answers about the log, on one connection. What is long comes in pages.</summary>
internal class SqlLedgerReading(DbConnection connection) : ILedgerReading
{
    private const long PageRows = 1000;

    private static readonly byte[] BeforeAll = [];

    public LedgerHead? Head =>
        connection
            .Rows(
                "SELECT size, root, note FROM head WHERE size > 0",
                row => new LedgerHead(row.Number(0), Root(row.Text(1)), row.Text(2))
            )
            .SingleOrDefault();

    public IEnumerable<StoredEntry> Entries(long from) =>
        Paged(
            from - 1,
            after =>
                connection.Rows(
                    "SELECT entry_index, bytes FROM entry WHERE entry_index > @after ORDER BY entry_index LIMIT @most",
                    row => new StoredEntry(row.Number(0), row.Bytes(1)),
                    ("@after", after),
                    ("@most", PageRows)
                ),
            entry => entry.Index
        );

    public StoredEntry? Entry(long index) =>
        connection.One<byte[]>("SELECT bytes FROM entry WHERE entry_index = @index", ("@index", index))
            is { } bytes
            ? new StoredEntry(index, bytes)
            : null;

    public ImmutableArray<long> About(string subject) =>
        [
            .. connection.Rows(
                "SELECT entry_index FROM entry WHERE subject = @subject ORDER BY entry_index",
                row => row.Number(0),
                ("@subject", subject)
            ),
        ];

    public ReadOnlyMemory<byte>? Content(ContentHash hash) =>
        connection.One<byte[]>("SELECT bytes FROM content WHERE hash = @hash", ("@hash", hash.ToBytes()))
            is { } bytes
            ? bytes
            : default(ReadOnlyMemory<byte>?);

    public IEnumerable<ContentHash> Contents() =>
        Paged(
                BeforeAll,
                after =>
                    connection.Rows(
                        "SELECT hash FROM content WHERE hash > @after ORDER BY hash LIMIT @most",
                        row => row.Bytes(0),
                        ("@after", after),
                        ("@most", PageRows)
                    ),
                bytes => bytes
            )
            .Select(bytes => ContentHash.TryFromBytes(bytes, out var hash) ? hash : default);

    public IEnumerable<string> Checkpoints() =>
        Paged(
                long.MinValue,
                after =>
                    connection.Rows(
                        "SELECT size, note FROM checkpoint WHERE size > @after ORDER BY size LIMIT @most",
                        row => (Size: row.Number(0), Note: row.Text(1)),
                        ("@after", after),
                        ("@most", PageRows)
                    ),
                one => one.Size
            )
            .Select(one => one.Note);

    public string? PseudonymOf(string person) =>
        connection.One<string>("SELECT pseudonym FROM person WHERE person = @person", ("@person", person));

    public IEnumerable<NamedPerson> People() =>
        connection.Rows(
            "SELECT pseudonym, person, salt FROM person ORDER BY pseudonym",
            row => new NamedPerson(
                row.Text(0),
                row.Text(1),
                row.IsDBNull(2) ? default(ReadOnlyMemory<byte>?) : row.Bytes(2)
            )
        );

    public string? PersonBehind(string pseudonym) =>
        connection.One<string>(
            "SELECT person FROM person WHERE pseudonym = @pseudonym",
            ("@pseudonym", pseudonym)
        );

    // What is no hash is none that any tree has.
    private static TreeHash Root(string text) => TreeHash.TryParse(text, out var root) ? root : default;

    private static IEnumerable<T> Paged<T, TKey>(TKey from, Func<TKey, List<T>> page, Func<T, TKey> key)
    {
        for (var after = from; ; )
        {
            var rows = page(after);
            foreach (var row in rows)
            {
                yield return row;
            }

            if (rows.Count < PageRows)
            {
                yield break;
            }

            after = key(rows[^1]);
        }
    }
}
