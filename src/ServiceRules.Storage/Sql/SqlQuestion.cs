using System.Collections.Immutable;
using System.Data.Common;
using System.Globalization;
using ServiceRules.Application.Rows;

namespace ServiceRules.Storage.Sql;

/// <summary>The conditions of one page: what is asked for, and behind which row.</summary>
internal sealed class SqlQuestion
{
    /// <summary>
    /// How many entries are looked through for a part of an identity before a page ends: no index finds a part, and no answer waits
    /// for the whole table.
    /// </summary>
    public const long LookedThrough = 50_000;

    private readonly List<string> conditions = [];
    private readonly List<(string Name, object? Value)> values = [];
    private readonly int most;
    private readonly string order;
    private readonly RowPaging paging;
    private string? part;

    /// <param name="paging">Which page.</param>
    /// <param name="ordinal">The column that orders the rows of one version; null when there is one row for each.</param>
    public SqlQuestion(RowPaging paging, string? ordinal)
    {
        ArgumentNullException.ThrowIfNull(paging);
        this.paging = paging;
        most = Math.Clamp(paging.Most, 1, RowPaging.MostRows);
        order =
            (paging.OldestFirst ? "r.entry_index" : "r.entry_index DESC")
            + (ordinal is null ? "" : $", {ordinal}");
        if (paging.Beyond is not { } beyond)
        {
            return;
        }

        var further = paging.OldestFirst ? ">" : "<";
        if (ordinal is null)
        {
            conditions.Add($"r.entry_index {further} @beyond");
        }
        else
        {
            // The first half is said twice so that an index finds it.
            conditions.Add($"r.entry_index {further}= @beyond");
            conditions.Add(
                $"(r.entry_index {further} @beyond OR (r.entry_index = @beyond AND {ordinal} > @within))"
            );
            values.Add(("@within", (long)beyond.Ordinal));
        }

        values.Add(("@beyond", beyond.Index));
    }

    public SqlQuestion Of(RecordFilter filter)
    {
        ArgumentNullException.ThrowIfNull(filter);
        _ = Is("r.site", filter.Site)
            .Is("r.machine", filter.Machine)
            .Is("r.disposition", filter.Disposition)
            .Is("r.state", filter.State)
            .When(!filter.AllVersions, "r.newest = 1");
        if (filter.Among is { } sites)
        {
            IsAmong("r.site", sites);
        }

        if (filter.From is { } from)
        {
            Add("r.day >= {0}", SqlRows.Days(from));
        }

        if (filter.Until is { } until)
        {
            Add("r.day <= {0}", SqlRows.Days(until));
        }

        if (filter.MachineOfAnyCase is { } machine)
        {
            Add("LOWER(r.machine) = {0}", Lower(machine));
        }

        // From the unit to its records: asked of each record whether it has the unit, all of them would be read.
        if (filter.UnitOfAnyCase is { } any)
        {
            Add(
                "r.entry_index IN (SELECT n.entry_index FROM unit_row n WHERE LOWER(n.unit) = {0})",
                Lower(any)
            );
        }

        if (filter.Unit is { } unit)
        {
            Add("r.entry_index IN (SELECT n.entry_index FROM unit_row n WHERE n.unit = {0})", unit);
        }

        part = filter.Containing is { } given ? Lower(given) : null;
        return this;
    }

    public SqlQuestion Is(string column, string? value)
    {
        if (value is not null)
        {
            Add(column + " = {0}", value);
        }

        return this;
    }

    public SqlQuestion When(bool isAsked, string condition)
    {
        if (isAsked)
        {
            conditions.Add(condition);
        }

        return this;
    }

    public RowPage<T> Page<T>(
        DbConnection connection,
        string select,
        Func<DbDataReader, T> read,
        Func<T, RowPlace> place
    )
    {
        if (part is not null)
        {
            return PageOfPart(connection, select, read, place);
        }

        // One more than asked for tells whether there is another page.
        var rows = Rows(connection, select, read, [], most + 1L);
        return rows.Count <= most ? new([.. rows], null) : new([.. rows.Take(most)], place(rows[most - 1]));
    }

    // What is called just so comes first, wherever it stands. What is called so in part is looked for in so many entries, and the page
    // ends there also where it is not full.
    private RowPage<T> PageOfPart<T>(
        DbConnection connection,
        string select,
        Func<DbDataReader, T> read,
        Func<T, RowPlace> place
    )
    {
        var (bound, next) = Bound(connection);
        (string Name, object? Value) whole = ("@whole", part);
        var called = paging.Beyond is null
            ? Rows(connection, select, read, [("LOWER(r.record) = @whole", [whole])], most)
            : [];
        var rows = Rows(
            connection,
            select,
            read,
            [
                (
                    "LOWER(r.record) LIKE @part ESCAPE '!' AND LOWER(r.record) <> @whole",
                    [("@part", $"%{Escaped(part!)}%"), whole]
                ),
                .. bound,
            ],
            most + 1L
        );
        return rows.Count <= most
            ? new([.. called, .. rows], next)
            : new([.. called, .. rows.Take(most)], place(rows[most - 1]));
    }

    /// <summary>How far a page looks; nothing where it comes to the end.</summary>
    private (IEnumerable<(string, (string, object?)[])> Condition, RowPlace? Next) Bound(
        DbConnection connection
    )
    {
        var last = connection
            .Rows("SELECT COALESCE(MAX(entry_index), 0) FROM record_row", row => row.Number(0))
            .Single();
        var end = paging.OldestFirst
            ? (paging.Beyond?.Index ?? -1) + LookedThrough
            : (paging.Beyond?.Index ?? last + 1) - LookedThrough;
        return (paging.OldestFirst ? end >= last : end <= 0)
            ? ([], null)
            : (
                [(paging.OldestFirst ? "r.entry_index <= @end" : "r.entry_index >= @end", [("@end", end)])],
                new RowPlace(end, int.MaxValue)
            );
    }

    private List<T> Rows<T>(
        DbConnection connection,
        string select,
        Func<DbDataReader, T> read,
        IEnumerable<(string Condition, (string Name, object? Value)[] Values)> further,
        long limit
    )
    {
        var all = further.ToList();
        List<string> asked = [.. conditions, .. all.Select(one => one.Condition)];
        var where = asked.Count == 0 ? "" : " WHERE " + string.Join(" AND ", asked);
        return connection.Rows(
            $"{select}{where} ORDER BY {order} LIMIT @most",
            read,
            [.. values, .. all.SelectMany(one => one.Values), ("@most", limit)]
        );
    }

    // Identities have letters of ASCII alone, which both databases make small alike.
    private static string Lower(string text) =>
        string.Create(
            text.Length,
            text,
            static (small, of) =>
            {
                for (var at = 0; at < small.Length; at++)
                {
                    small[at] = char.IsAsciiLetterUpper(of[at]) ? (char)(of[at] | 0x20) : of[at];
                }
            }
        );

    private static string Escaped(string text) =>
        text.Replace("!", "!!", StringComparison.Ordinal)
            .Replace("%", "!%", StringComparison.Ordinal)
            .Replace("_", "!_", StringComparison.Ordinal);

    private void IsAmong(string column, ImmutableArray<string> accepted)
    {
        if (accepted.IsEmpty)
        {
            conditions.Add("1 = 0");
            return;
        }

        var names = accepted.Select(value =>
        {
            var name = string.Create(CultureInfo.InvariantCulture, $"@v{values.Count}");
            values.Add((name, value));
            return name;
        });
        conditions.Add($"{column} IN ({string.Join(", ", names)})");
    }

    private void Add(string condition, object value)
    {
        var name = string.Create(CultureInfo.InvariantCulture, $"@v{values.Count}");
        conditions.Add(string.Format(CultureInfo.InvariantCulture, condition, name));
        values.Add((name, value));
    }
}
