using System.Data.Common;
using ServiceRules.Application.Accounts;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Packs;
using ServiceRules.Application.Rejudging;
using ServiceRules.Application.Rows;
using ServiceRules.Application.Waiving;
using ServiceRules.Evidence;

namespace ServiceRules.Storage.Sql;

/// <summary>One open transaction.</summary>
/// <param name="connection">The connection that it is open on.</param>
/// <param name="trouble">What a failure of the database means.</param>
internal sealed class SqlLedgerWriting(
    DbConnection connection,
    Func<DbException, LedgerStoreException> trouble
) : SqlLedgerReading(connection), ILedgerWriting
{
    private readonly DbConnection connection = connection;

    public IRowWriting Rows { get; } = new SqlRowWriting(connection);

    public IAccountsInLog Accounts { get; } = new SqlAccountsInLog(connection);

    public IRulesWriting Packs { get; } = new SqlPackWriting(connection);

    public IWaiverWriting Waivers { get; } = new SqlWaiverWriting(connection);

    public IRejudgingWriting Rejudgings { get; } = new SqlRejudgingWriting(connection);

    public T Within<T>(Func<T> part)
    {
        try
        {
            _ = connection.Execute("SAVEPOINT part");
            var outcome = part();
            _ = connection.Execute("RELEASE SAVEPOINT part");
            return outcome;
        }
        catch (DbException failure)
        {
            Undo(trouble(failure));
            throw trouble(failure);
        }
        catch (Exception failure)
        {
            Undo(failure);
            throw;
        }
    }

    public string PseudonymFor(string person)
    {
        if (PseudonymOf(person) is { } known)
        {
            return known;
        }

        var drawn = NamedPerson.Draw(person);
        _ = connection.Execute(
            "INSERT INTO person (pseudonym, person, salt) VALUES (@pseudonym, @person, @salt)",
            ("@pseudonym", drawn.Pseudonym),
            ("@person", person),
            ("@salt", drawn.Salt!.Value.ToArray())
        );
        return drawn.Pseudonym;
    }

    /// <summary>Whether something was asked to be gone.</summary>
    public bool HasRemoved { get; private set; }

    public void Forget(string pseudonym)
    {
        Removing();
        _ = connection.Execute("DELETE FROM person WHERE pseudonym = @pseudonym", ("@pseudonym", pseudonym));
    }

    // Files of lists hold what is to be gone as well; whoever still writes one is refused the next part, and asks again.
    private void Removing()
    {
        if (HasRemoved)
        {
            return;
        }

        HasRemoved = true;
        _ = connection.Execute("DELETE FROM export_part");
        _ = connection.Execute("DELETE FROM export_job");
    }

    public void Keep(ContentHash hash, ReadOnlyMemory<byte> content) =>
        _ = connection.Execute(
            "INSERT INTO content (hash, bytes) VALUES (@hash, @bytes) ON CONFLICT (hash) DO NOTHING",
            ("@hash", hash.ToBytes()),
            ("@bytes", content.ToArray())
        );

    public void Remove(ContentHash hash)
    {
        Removing();
        _ = connection.Execute("DELETE FROM content WHERE hash = @hash", ("@hash", hash.ToBytes()));
    }

    public void Append(StoredEntry entry) =>
        _ = connection.Execute(
            "INSERT INTO entry (entry_index, bytes) VALUES (@index, @bytes)",
            ("@index", entry.Index),
            ("@bytes", entry.Bytes.ToArray())
        );

    public void Advance(LedgerHead head)
    {
        _ = connection.Execute(
            "INSERT INTO checkpoint (size, note) VALUES (@size, @note)",
            ("@size", head.Size),
            ("@note", head.Note)
        );
        _ = connection.Execute(
            """
            INSERT INTO head (one, size, root, note) VALUES (1, @size, @root, @note)
            ON CONFLICT (one) DO UPDATE SET size = excluded.size, root = excluded.root, note = excluded.note
            """,
            ("@size", head.Size),
            ("@root", head.Root.ToString()),
            ("@note", head.Note)
        );
    }

    // A full disk or a lost connection may have ended the whole transaction.
    private void Undo(Exception reason)
    {
        try
        {
            _ = connection.Execute("ROLLBACK TO SAVEPOINT part");
            _ = connection.Execute("RELEASE SAVEPOINT part");
        }
        catch (Exception lost) when (lost is DbException or InvalidOperationException)
        {
            throw new LedgerStoreException(
                reason is LedgerStoreException known ? known.Trouble : StoreTrouble.Failed,
                reason.Message,
                reason
            )
            {
                EndsTransaction = true,
            };
        }
    }
}
