using System.Collections.Immutable;
using System.Data.Common;
using System.Globalization;
using ServiceRules.Application.Rows;

namespace ServiceRules.Storage.Sql;

/// <summary>The conditions of one page: what is asked for, and behind which row.</summary>
internal sealed class SqlQuestion
{
    private readonly List<string> conditions = [];
    private readonly List<(string Name, object? Value)> values = [];
    private readonly int most;
    private readonly string order;

    /// <param name="paging">Which page.</param>
    /// <param name="ordinal">The column that orders the rows of one version; null when there is one row for each.</param>
    public SqlQuestion(RowPaging paging, string? ordinal)
    {
        ArgumentNullException.ThrowIfNull(paging);
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

        if (filter.Containing is { } part)
        {
            Add("LOWER(r.record) LIKE {0} ESCAPE '!'", $"%{Escaped(Lower(part))}%");
        }

        if (filter.UnitOfAnyCase is { } any)
        {
            Add(
                "EXISTS (SELECT 1 FROM unit_row n WHERE n.entry_index = r.entry_index AND LOWER(n.unit) = {0})",
                Lower(any)
            );
        }

        if (filter.Unit is { } unit)
        {
            Add(
                "EXISTS (SELECT 1 FROM unit_row n WHERE n.entry_index = r.entry_index AND n.unit = {0})",
                unit
            );
        }

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
        var where = conditions.Count == 0 ? "" : " WHERE " + string.Join(" AND ", conditions);
        // One more than asked for tells whether there is another page.
        var rows = connection.Rows(
            $"{select}{where} ORDER BY {order} LIMIT @most",
            read,
            [.. values, ("@most", most + 1L)]
        );
        return rows.Count <= most ? new([.. rows], null) : new([.. rows.Take(most)], place(rows[most - 1]));
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
