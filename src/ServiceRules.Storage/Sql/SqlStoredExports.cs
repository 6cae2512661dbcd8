using System.Collections.Immutable;
using System.Data.Common;
using ServiceRules.Application.Exporting;
using ServiceRules.Application.Ledger;
using ServiceRules.Evidence;

namespace ServiceRules.Storage.Sql;

/// <summary>Exports, each question on a connection of its own.</summary>
internal sealed class SqlStoredExports(SqlLedgerStore store) : IExportStore
{
    private const string Columns =
        "export_id, by_whom, request, asked_at, expires_at, state, row_count, byte_count, digest, failure, site";

    public ExportJob? Ask(ExportJob job, int most)
    {
        ArgumentNullException.ThrowIfNull(job);
        return store.WriteBeside(connection =>
        {
            // A turn for each caller: two who ask at once for the same are told of one.
            _ = connection.Execute(
                """
                INSERT INTO export_caller (by_whom, asked) VALUES (@by, 1)
                ON CONFLICT (by_whom) DO UPDATE SET asked = export_caller.asked + 1
                """,
                ("@by", job.By)
            );
            // What expired is removed behind answers, and meanwhile is no export of anybody.
            var own = connection.Rows(
                $"SELECT {Columns} FROM export_job WHERE by_whom = @by AND expires_at > @now",
                Of,
                ("@by", job.By),
                ("@now", job.AskedAt.ToUnixTimeMilliseconds())
            );
            if (
                own.Find(one =>
                    one.Request == job.Request
                    && one.Site == job.Site
                    && one.State is (ExportState.Queued or ExportState.Running)
                ) is
                { } same
            )
            {
                return same;
            }

            if (own.Count >= most)
            {
                return null;
            }

            _ = connection.Execute(
                """
                INSERT INTO export_job (export_id, by_whom, site, request, asked_at, expires_at, state, row_count, byte_count)
                VALUES (@id, @by, @site, @request, @asked, @expires, 0, 0, 0)
                """,
                ("@id", job.Id),
                ("@by", job.By),
                ("@site", job.Site),
                ("@request", job.Request),
                ("@asked", job.AskedAt.ToUnixTimeMilliseconds()),
                ("@expires", job.ExpiresAt.ToUnixTimeMilliseconds())
            );
            return job;
        });
    }

    public ExportJob? Find(string id) =>
        store.OnConnection(connection =>
            connection
                .Rows($"SELECT {Columns} FROM export_job WHERE export_id = @id", Of, ("@id", id))
                .SingleOrDefault()
        );

    public ImmutableArray<ExportJob> Of(string by) =>
        [
            .. store.OnConnection(connection =>
                connection.Rows(
                    $"SELECT {Columns} FROM export_job WHERE by_whom = @by ORDER BY asked_at DESC, export_id",
                    Of,
                    ("@by", by)
                )
            ),
        ];

    public ImmutableArray<string> Kept(bool unfinishedOnly) =>
        [
            .. store.OnConnection(connection =>
                connection.Rows(
                    unfinishedOnly
                        ? "SELECT export_id FROM export_job WHERE state IN (0, 1) ORDER BY asked_at, export_id"
                        : "SELECT export_id FROM export_job ORDER BY asked_at, export_id",
                    row => row.Text(0)
                )
            ),
        ];

    public bool Begin(string id, string turn) =>
        store.WriteBeside(connection =>
        {
            var isBegun =
                connection.Execute(
                    """
                    UPDATE export_job SET state = 1, turn = @turn, row_count = 0, byte_count = 0
                    WHERE export_id = @id AND state IN (0, 1)
                    """,
                    ("@id", id),
                    ("@turn", turn)
                ) > 0;
            if (isBegun)
            {
                _ = connection.Execute("DELETE FROM export_part WHERE export_id = @id", ("@id", id));
            }

            return isBegun;
        });

    public bool Append(string id, string turn, int number, ReadOnlyMemory<byte> part, long rows) =>
        store.WriteBeside(connection =>
        {
            // The row is locked by this first: nobody begins anew between the two.
            var holds =
                connection.Execute(
                    """
                    UPDATE export_job SET row_count = @rows, byte_count = byte_count + @bytes
                    WHERE export_id = @id AND turn = @turn AND state = 1
                    """,
                    ("@id", id),
                    ("@turn", turn),
                    ("@rows", rows),
                    ("@bytes", (long)part.Length)
                ) > 0;
            if (holds)
            {
                _ = connection.Execute(
                    "INSERT INTO export_part (export_id, number, content) VALUES (@id, @number, @content)",
                    ("@id", id),
                    ("@number", (long)number),
                    ("@content", part.ToArray())
                );
            }

            return holds;
        });

    public bool End(string id, string turn, long rows, ContentHash digest) =>
        store.WriteBeside(connection => End(connection, id, turn, rows, digest));

    public static bool End(DbConnection connection, string id, string turn, long rows, ContentHash digest) =>
        connection.Execute(
            """
            UPDATE export_job SET state = 2, row_count = @rows, digest = @digest
            WHERE export_id = @id AND turn = @turn AND state = 1
            """,
            ("@id", id),
            ("@turn", turn),
            ("@rows", rows),
            ("@digest", digest.ToBytes())
        ) > 0;

    public bool Fail(string id, string turn, string why) =>
        store.WriteBeside(connection =>
        {
            var holds =
                connection.Execute(
                    """
                    UPDATE export_job SET state = 3, byte_count = 0, failure = @why
                    WHERE export_id = @id AND turn = @turn AND state = 1
                    """,
                    ("@id", id),
                    ("@turn", turn),
                    ("@why", why)
                ) > 0;
            if (holds)
            {
                _ = connection.Execute("DELETE FROM export_part WHERE export_id = @id", ("@id", id));
            }

            return holds;
        });

    public byte[]? Part(string id, int number) =>
        store.OnConnection(connection =>
            connection.One<byte[]>(
                "SELECT content FROM export_part WHERE export_id = @id AND number = @number",
                ("@id", id),
                ("@number", (long)number)
            )
        );

    public void Remove(string id) =>
        _ = store.WriteBeside(connection =>
            connection.Execute("DELETE FROM export_job WHERE export_id = @id", ("@id", id))
            + connection.Execute("DELETE FROM export_part WHERE export_id = @id", ("@id", id))
        );

    private static ExportJob Of(DbDataReader row) =>
        new(
            row.Text(0),
            row.Text(1),
            row.Text(2),
            DateTimeOffset.FromUnixTimeMilliseconds(row.Number(3)),
            DateTimeOffset.FromUnixTimeMilliseconds(row.Number(4))
        )
        {
            State = (ExportState)row.Number(5),
            Rows = row.Number(6),
            Bytes = row.Number(7),
            Digest =
                row.IsDBNull(8) ? null
                : ContentHash.TryFromBytes(row.Bytes(8), out var digest) ? digest
                : throw new LedgerStoreException(
                    StoreTrouble.Damaged,
                    "the database is damaged: a digest is of another length"
                ),
            Failure = row.TextOrNone(9),
            Site = row.TextOrNone(10),
        };
}
