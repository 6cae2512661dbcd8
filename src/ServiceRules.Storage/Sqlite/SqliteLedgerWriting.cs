using Microsoft.Data.Sqlite;
using ServiceRules.Application.Ledger;
using ServiceRules.Evidence;

namespace ServiceRules.Storage.Sqlite;

/// <summary>One open transaction.</summary>
internal sealed class SqliteLedgerWriting(SqliteConnection connection)
    : SqliteLedgerReading(connection),
        ILedgerWriting
{
    private readonly SqliteConnection connection = connection;

    public string PseudonymFor(string person)
    {
        if (PseudonymOf(person) is { } known)
        {
            return known;
        }

        var drawn = NamedPerson.Draw(person);
        connection.Execute(
            "INSERT INTO person (pseudonym, person, salt) VALUES ($pseudonym, $person, $salt)",
            ("$pseudonym", drawn.Pseudonym),
            ("$person", person),
            ("$salt", drawn.Salt!.Value.ToArray())
        );
        return drawn.Pseudonym;
    }

    /// <summary>Whether something was asked to be gone.</summary>
    public bool HasRemoved { get; private set; }

    public void Forget(string pseudonym)
    {
        HasRemoved = true;
        connection.Execute("DELETE FROM person WHERE pseudonym = $pseudonym", ("$pseudonym", pseudonym));
    }

    public void Keep(ContentHash hash, ReadOnlyMemory<byte> content) =>
        connection.Execute(
            "INSERT INTO content (hash, bytes) VALUES ($hash, $bytes) ON CONFLICT (hash) DO NOTHING",
            ("$hash", hash.ToBytes()),
            ("$bytes", content.ToArray())
        );

    public void Remove(ContentHash hash)
    {
        HasRemoved = true;
        connection.Execute("DELETE FROM content WHERE hash = $hash", ("$hash", hash.ToBytes()));
    }

    public void Append(StoredEntry entry) =>
        connection.Execute(
            "INSERT INTO entry (entry_index, bytes) VALUES ($index, $bytes)",
            ("$index", entry.Index),
            ("$bytes", entry.Bytes.ToArray())
        );

    public void Advance(LedgerHead head)
    {
        connection.Execute(
            "INSERT INTO checkpoint (size, note) VALUES ($size, $note)",
            ("$size", head.Size),
            ("$note", head.Note)
        );
        connection.Execute(
            """
            INSERT INTO head (one, size, root, note) VALUES (1, $size, $root, $note)
            ON CONFLICT (one) DO UPDATE SET size = excluded.size, root = excluded.root, note = excluded.note
            """,
            ("$size", head.Size),
            ("$root", head.Root.ToString()),
            ("$note", head.Note)
        );
    }
}
