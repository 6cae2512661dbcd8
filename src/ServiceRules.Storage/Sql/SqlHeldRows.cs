using System.Collections.Immutable;
using System.Data.Common;
using System.Globalization;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Rows;

namespace ServiceRules.Storage.Sql;

/// <summary>Rows held against the digests that were made with them.</summary>
internal static class SqlHeldRows
{
    public const string Units = "entry_index, ordinal, unit, disposition";

    public const string Shown = "what, key, first_day, last_day, entry_index";

    /// <summary>Places of one statement: beyond it the number of parameters of a statement would be the limit.</summary>
    private const int Together = 100;

    public static readonly string Findings =
        "entry_index, " + SqlRows.FindingColumns.Replace("f.", "", StringComparison.Ordinal);

    /// <summary>The columns of a version's row, and those of all its digests.</summary>
    public static readonly string WrittenColumns =
        SqlRows.RecordColumns.Replace("r.", "", StringComparison.Ordinal)
        + ", digest, overtaken_digest, units_digest, findings_digest, shown_digest";

    /// <summary>The columns of a version's row, and the digest in the last of them.</summary>
    public const string RecordColumns = SqlRows.RecordColumns + ", r.digest";

    /// <summary>Found by an index of days, whose condition it says, and given in its order.</summary>
    public const string OfDays =
        $"SELECT {RecordColumns} FROM record_row r WHERE r.site = @site AND r.newest = 1 AND r.entry_index >= 0 "
        + "AND r.day >= @from AND r.day <= @until ORDER BY r.day, r.entry_index";

    /// <summary>A version's row, where it is the one that its digest was made of.</summary>
    /// <exception cref="LedgerStoreException">It is another one.</exception>
    public static RecordRow Record(DbDataReader row)
    {
        var record = SqlRows.Record(row);
        return IsHeld(row, record) ? record : throw Other(record.Index, RowTable.Record);
    }

    /// <summary>The site of a version, where nothing says that its row was changed. Rows from before have no digest.</summary>
    public static (long Index, string Site)? Site(DbDataReader row)
    {
        try
        {
            var record = SqlRows.Record(row);
            return record.Site is { } site && (row.IsDBNull(SqlRows.RecordCount) || IsHeld(row, record))
                ? (record.Index, site)
                : null;
        }
        catch (LedgerStoreException)
        {
            return null;
        }
    }

    /// <summary>Holds every unit of the versions of these.</summary>
    public static RowPage<UnitRow> Hold(DbConnection connection, RowPage<UnitRow> page)
    {
        Hold(
            connection,
            RowTable.Unit,
            Units,
            "units_digest",
            [.. page.Rows.Select(row => (row.Of.Index, SqlRows.Values(row)))]
        );
        return page;
    }

    /// <summary>Every unit of these versions, held.</summary>
    public static IEnumerable<UnitRow> UnitsOf(DbConnection connection, IEnumerable<RecordRow> versions) =>
        from some in versions.Chunk(Together)
        let stored = Held(
            connection,
            RowTable.Unit,
            Units,
            "units_digest",
            [.. some.Select(one => one.Index)]
        )
        from version in some
        from values in stored[version.Index]
        select SqlRows.Unit(version, values);

    /// <summary>Holds every finding on the versions of these.</summary>
    public static RowPage<FindingRow> Hold(DbConnection connection, RowPage<FindingRow> page)
    {
        Hold(
            connection,
            RowTable.Finding,
            Findings,
            "findings_digest",
            [.. page.Rows.Select(row => (row.Of.Index, SqlRows.Values(row)))]
        );
        return page;
    }

    /// <summary>What stands of places in the log, whatever it is, in their order.</summary>
    public static IReadOnlyList<KeptRows> Kept(DbConnection connection, long from, long until)
    {
        var units = Raw(connection, RowTable.Unit, Units, from, until);
        var findings = Raw(connection, RowTable.Finding, Findings, from, until);
        var shown = Raw(connection, RowTable.Shown, Shown, from, until);
        var kept = new SortedDictionary<long, KeptRows>();
        foreach (
            var one in connection.Rows(
                $"""
                SELECT {RecordColumns}, r.units_digest, r.findings_digest, r.shown_digest FROM record_row r
                WHERE r.entry_index >= @from AND r.entry_index < @until ORDER BY r.entry_index
                """,
                row => Kept(row, units, findings, shown),
                ("@from", from),
                ("@until", until)
            )
        )
        {
            kept[one.Index] = one;
        }

        foreach (
            var (table, rows) in new[]
            {
                (RowTable.Unit, units),
                (RowTable.Finding, findings),
                (RowTable.Shown, shown),
            }
        )
        {
            foreach (
                var index in rows.Select(group => group.Key)
                    .Where(index => !kept.TryGetValue(index, out var one) || one.Rows is null)
            )
            {
                var before = kept.TryGetValue(index, out var one) ? one.Unheld : [];
                kept[index] = new(index, null, before.Contains(table) ? before : before.Add(table));
            }
        }

        return [.. kept.Values];
    }

    private static KeptRows Kept(
        DbDataReader row,
        ILookup<long, object?[]> units,
        ILookup<long, object?[]> findings,
        ILookup<long, object?[]> shown
    )
    {
        var index = row.Number(0);
        var unheld = ImmutableArray.CreateBuilder<string>();
        try
        {
            var record = SqlRows.Record(row);
            if (!IsHeld(row, record))
            {
                unheld.Add(RowTable.Record);
            }

            foreach (
                var (table, rows, digest) in new[]
                {
                    (RowTable.Unit, units[index], SqlRows.RecordCount + 1),
                    (RowTable.Finding, findings[index], SqlRows.RecordCount + 2),
                    (RowTable.Shown, shown[index], SqlRows.RecordCount + 3),
                }
            )
            {
                if (!IsHeld(row, digest, rows))
                {
                    unheld.Add(table);
                }
            }

            return new(
                index,
                new RecordRows(
                    record,
                    [.. units[index].Select(values => SqlRows.Unit(record, values))],
                    [.. findings[index].Select(values => SqlRows.Finding(record, values))]
                )
                {
                    Shown = [.. shown[index].Select(SqlShown.Row)],
                },
                unheld.ToImmutable()
            );
        }
        catch (LedgerStoreException)
        {
            return new(index, null, unheld.Count > 0 ? unheld.ToImmutable() : [RowTable.Record]);
        }
    }

    private static void Hold(
        DbConnection connection,
        string table,
        string columns,
        string digest,
        IReadOnlyCollection<(long Index, object?[] Values)> told
    )
    {
        foreach (var some in told.GroupBy(row => row.Index).Chunk(Together))
        {
            var stored = Held(connection, table, columns, digest, [.. some.Select(version => version.Key)]);
            // What is told may have been read from an index, and has to be what stands in the table.
            if (
                some.FirstOrDefault(version =>
                    !version.All(row => stored[version.Key].Any(values => values.SequenceEqual(row.Values)))
                ) is
                { } other
            )
            {
                throw Other(other.Key, table);
            }
        }
    }

    // What a table holds of these versions, as many as one statement takes.
    private static ILookup<long, object?[]> Held(
        DbConnection connection,
        string table,
        string columns,
        string digest,
        IReadOnlyList<long> versions
    )
    {
        var names = versions
            .Select((_, at) => string.Create(CultureInfo.InvariantCulture, $"@p{at}"))
            .ToList();
        (string Name, object? Value)[] places =
        [
            .. names.Zip(versions, (name, index) => (name, (object?)index)),
        ];
        var among = $"entry_index IN ({string.Join(", ", names)})";
        var stored = connection
            .Rows($"SELECT {columns} FROM {table} WHERE {among}", row => Raw(row), places)
            .ToLookup(values => values[0] is long index ? index : -1);
        var digests = connection
            .Rows(
                $"SELECT entry_index, {digest} FROM record_row WHERE {among}",
                row => (Index: row.Number(0), Digest: row.BytesOrNone(1)),
                places
            )
            .ToDictionary(one => one.Index, one => one.Digest);
        foreach (var index in versions)
        {
            if (
                digests.GetValueOrDefault(index) is not { } made
                || !SqlRowDigest.Of(stored[index]).AsSpan().SequenceEqual(made)
            )
            {
                throw Other(index, table);
            }
        }

        return stored;
    }

    private static bool IsHeld(DbDataReader row, RecordRow record) =>
        IsHeld(row, SqlRows.RecordCount, [SqlRows.Values(record)]);

    private static bool IsHeld(DbDataReader row, int digest, IEnumerable<object?[]> rows) =>
        row.BytesOrNone(digest) is { } made && SqlRowDigest.Of(rows).AsSpan().SequenceEqual(made);

    private static ILookup<long, object?[]> Raw(
        DbConnection connection,
        string table,
        string columns,
        long from,
        long until
    ) =>
        connection
            .Rows(
                $"SELECT entry_index, {columns} FROM {table} WHERE entry_index >= @from AND entry_index < @until",
                row => (Index: row.Number(0), Values: Raw(row)[1..]),
                ("@from", from),
                ("@until", until)
            )
            .ToLookup(row => row.Index, row => row.Values);

    private static object?[] Raw(DbDataReader row)
    {
        var values = new object?[row.FieldCount];
        for (var column = 0; column < values.Length; column++)
        {
            values[column] = row.IsDBNull(column) ? null : row.GetValue(column);
        }

        return values;
    }

    public static LedgerStoreException Other(long index, string table)
    {
        var place = string.Create(CultureInfo.InvariantCulture, $"entry {index}");
        return new(
            StoreTrouble.Rows,
            $"what `{table}` holds of {place} is not what was made of the log; `servicerules ledger verify` tells what differs, "
                + "`servicerules ledger rows --rebuild` makes it anew"
        )
        {
            Place = place,
        };
    }
}
