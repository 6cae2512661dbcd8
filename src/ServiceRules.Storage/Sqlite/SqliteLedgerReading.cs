using System.Collections.Immutable;
using Microsoft.Data.Sqlite;
using ServiceRules.Application.Ledger;
using ServiceRules.Evidence;
using ServiceRules.Evidence.Log;

namespace ServiceRules.Storage.Sqlite;

/// <summary>What the database answers, on one connection.</summary>
internal class SqliteLedgerReading(SqliteConnection connection) : ILedgerReading
{
    public LedgerHead? Head =>
        connection
            .Rows(
                "SELECT size, root, note FROM head",
                row => new LedgerHead(row.Number(0), Root(row.Text(1)), row.Text(2))
            )
            .SingleOrDefault();

    public IEnumerable<StoredEntry> Entries(long from) =>
        connection.Rows(
            "SELECT entry_index, bytes FROM entry WHERE entry_index >= $from ORDER BY entry_index",
            row => new StoredEntry(row.Number(0), row.Bytes(1)),
            ("$from", from)
        );

    public StoredEntry? Entry(long index) =>
        connection.One<byte[]>("SELECT bytes FROM entry WHERE entry_index = $index", ("$index", index))
            is { } bytes
            ? new StoredEntry(index, bytes)
            : null;

    public ImmutableArray<long> About(string subject) =>
        [
            .. connection.Rows(
                "SELECT entry_index FROM entry WHERE subject = $subject ORDER BY entry_index",
                row => row.Number(0),
                ("$subject", subject)
            ),
        ];

    public ReadOnlyMemory<byte>? Content(ContentHash hash) =>
        connection.One<byte[]>("SELECT bytes FROM content WHERE hash = $hash", ("$hash", hash.ToBytes()))
            is { } bytes
            ? bytes
            : default(ReadOnlyMemory<byte>?);

    public IEnumerable<ContentHash> Contents() =>
        connection.Rows(
            "SELECT hash FROM content ORDER BY hash",
            row => ContentHash.TryFromBytes(row.Bytes(0), out var hash) ? hash : default
        );

    public IEnumerable<string> Checkpoints() =>
        connection.Rows("SELECT note FROM checkpoint ORDER BY size", row => row.Text(0));

    public string? PseudonymOf(string person) =>
        connection.One<string>("SELECT pseudonym FROM person WHERE person = $person", ("$person", person));

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
            "SELECT person FROM person WHERE pseudonym = $pseudonym",
            ("$pseudonym", pseudonym)
        );

    // What is no hash is none that any tree has.
    private static TreeHash Root(string text) => TreeHash.TryParse(text, out var root) ? root : default;
}
