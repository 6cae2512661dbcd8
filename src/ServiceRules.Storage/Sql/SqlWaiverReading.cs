using System.Collections.Immutable;
using System.Data.Common;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Waiving;
using ServiceRules.Evidence;

namespace ServiceRules.Storage.Sql;

/// <summary>Questions about waivers on one connection.</summary>
internal class SqlWaiverReading(DbConnection connection) : IWaiverReading
{
    public WaiverMark Mark(string site) =>
        connection
            .Rows(
                """
                SELECT COALESCE(MAX(w.number), 0), COUNT(CASE WHEN w.withdrawn_at IS NULL THEN c.hash END)
                FROM site_waiver w LEFT JOIN content c ON c.hash = w.content WHERE w.site = @site
                """,
                row => new WaiverMark(row.Number(0), row.Number(1)),
                ("@site", site)
            )
            .Single();

    public ImmutableArray<KeptWaiver> Of(string site)
    {
        var rows = connection.Rows(
            """
            SELECT w.number, w.site, w.subject, w.content, c.bytes, w.at, w.entry_index, w.withdrawn_at, w.withdrawn_entry
            FROM site_waiver w LEFT JOIN content c ON c.hash = w.content WHERE w.site = @site ORDER BY w.number
            """,
            row => (Waiver: Kept(row), Hash: Named(row.Bytes(3))),
            ("@site", site)
        );
        var lost = new SqlLedgerReading(connection).Lost([
            .. rows.Where(row => row.Waiver.Content is null).Select(row => row.Hash),
        ]);
        return [.. rows.Select(row => row.Waiver with { IsLost = lost.Contains(row.Hash) })];
    }

    public ImmutableArray<WaiverRow> Rows() =>
        [
            .. connection.Rows(
                """
                SELECT number, site, subject, content, at, entry_index, withdrawn_at, withdrawn_entry FROM site_waiver ORDER BY number
                """,
                row => new WaiverRow(
                    row.Number(0),
                    row.Text(1),
                    row.Text(2),
                    ContentHash.TryFromBytes(row.Bytes(3), out var content) ? content : default,
                    DateTimeOffset.FromUnixTimeMilliseconds(row.Number(4)),
                    row.Number(5)
                )
                {
                    WithdrawnAt = row.NumberOrNone(6) is { } at
                        ? DateTimeOffset.FromUnixTimeMilliseconds(at)
                        : null,
                    WithdrawnBy = row.NumberOrNone(7),
                }
            ),
        ];

    private static KeptWaiver Kept(DbDataReader row) =>
        new(
            row.Number(0),
            row.Text(1),
            row.Text(2),
            Checked(Named(row.Bytes(3)), row.BytesOrNone(4)),
            DateTimeOffset.FromUnixTimeMilliseconds(row.Number(5)),
            row.Number(6)
        )
        {
            WithdrawnAt = row.NumberOrNone(7) is { } at ? DateTimeOffset.FromUnixTimeMilliseconds(at) : null,
            WithdrawnBy = row.NumberOrNone(8),
        };

    private static ContentHash Named(byte[] hash) =>
        ContentHash.TryFromBytes(hash, out var named) ? named : default;

    // What loosens a rule is what was filed, and nothing else.
    private static ReadOnlyMemory<byte>? Checked(ContentHash hash, byte[]? bytes) =>
        bytes is not null && ContentHash.Of(bytes) == hash ? bytes : default(ReadOnlyMemory<byte>?);
}
