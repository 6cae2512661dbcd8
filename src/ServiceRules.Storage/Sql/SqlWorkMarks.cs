using ServiceRules.Application.Working;

namespace ServiceRules.Storage.Sql;

/// <summary>Marks, each question on a connection of its own.</summary>
internal sealed class SqlWorkMarks(SqlLedgerStore store) : IWorkMarks
{
    public long? Find(string kind) =>
        store.OnConnection(connection =>
            connection
                .Rows(
                    "SELECT entry_index FROM work_mark WHERE kind = @kind",
                    row => (long?)row.Number(0),
                    ("@kind", kind)
                )
                .SingleOrDefault()
        );

    public void Move(string kind, long entry) =>
        _ = store.WriteBeside(connection =>
            connection.Execute(
                """
                INSERT INTO work_mark (kind, entry_index) VALUES (@kind, @entry)
                ON CONFLICT (kind) DO UPDATE SET entry_index = excluded.entry_index
                WHERE work_mark.entry_index < excluded.entry_index
                """,
                ("@kind", kind),
                ("@entry", entry)
            )
        );
}
