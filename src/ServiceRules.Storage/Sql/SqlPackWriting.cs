using System.Data.Common;
using ServiceRules.Application.Packs;

namespace ServiceRules.Storage.Sql;

/// <summary>One open transaction on packs and sheets.</summary>
internal sealed class SqlPackWriting(DbConnection connection) : SqlPackReading(connection), IRulesWriting
{
    private readonly DbConnection connection = connection;

    public RulesActivation Activate(RulesActivation activation)
    {
        ArgumentNullException.ThrowIfNull(activation);
        // The head of the log is locked meanwhile, so that no two take one number.
        var next = activation with
        {
            Number = (InForce()?.Number ?? 0) + 1,
        };
        _ = Insert(next);
        return next;
    }

    public bool Keep(string digest, ReadOnlyMemory<byte> book, DateTimeOffset at) =>
        connection.Execute(
            """
            INSERT INTO rule_set (digest, book, stored_at) VALUES (@digest, @book, @at)
            ON CONFLICT (digest) DO NOTHING
            """,
            ("@digest", digest),
            ("@book", book.ToArray()),
            ("@at", at.ToUnixTimeMilliseconds())
        ) == 1;

    /// <summary>Of two that take one number, the second changes nothing.</summary>
    public bool Insert(RulesActivation activation) =>
        connection.Execute(
            """
            INSERT INTO rule_activation (number, digest, at, reason, by_whom, entry_index)
            VALUES (@number, @digest, @at, @reason, @by, @entry)
            ON CONFLICT (number) DO NOTHING
            """,
            ("@number", activation.Number),
            ("@digest", activation.Digest),
            ("@at", activation.At.ToUnixTimeMilliseconds()),
            ("@reason", activation.Reason),
            ("@by", activation.By),
            ("@entry", activation.Entry)
        ) == 1;
}
