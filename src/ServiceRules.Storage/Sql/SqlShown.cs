using System.Globalization;
using ServiceRules.Application.Rows;

namespace ServiceRules.Storage.Sql;

/// <summary>How what records show stands in its table, and how it is asked for.</summary>
internal static class SqlShown
{
    /// <summary>Keys of one statement: beyond it the number of parameters of a statement would be the limit.</summary>
    public const int KeysTogether = 100;

    public static object?[] Values(long index, ShownRow row) =>
        [WordOf(row.What), row.Key, SqlRows.Days(row.First), SqlRows.Days(row.Last), index];

    public static ShownRow Row(object?[] values) =>
        values is [string word, string key, long first, long last, _]
        && Enum.GetValues<ShownKind>().Where(what => WordOf(what) == word).ToList() is [var kind]
            ? new(kind, key, SqlRows.Day(first), SqlRows.Day(last))
            : throw SqlRows.Unfit();

    public static (string Sql, List<(string Name, object? Value)> Values) Question(
        ShownFilter filter,
        IReadOnlyList<string> keys
    )
    {
        var values = new List<(string Name, object? Value)>
        {
            ("@what", WordOf(filter.What)),
            ("@site", filter.Site),
            ("@most", (long)filter.Most),
        };
        var asked = keys.Select(
                (key, at) =>
                    (Name: string.Create(CultureInfo.InvariantCulture, $"@k{at}"), Value: (object?)key)
            )
            .ToList();
        values.AddRange(asked);
        var days = "";
        if (filter.Until is { } until)
        {
            days += " AND s.first_day <= @until";
            values.Add(("@until", SqlRows.Days(until)));
        }

        if (filter.From is { } from)
        {
            // The first half bounds what the index is looked through for.
            days += " AND s.first_day >= @floor AND s.last_day >= @from";
            values.Add(("@floor", SqlRows.Days(from) - ShownFilter.LongestJobDays));
            values.Add(("@from", SqlRows.Days(from)));
        }

        var order = filter.EarliestFirst
            ? "s.first_day, s.entry_index"
            : "s.first_day DESC, s.entry_index DESC";
        return (
            $"""
            SELECT {SqlHeldRows.RecordColumns} FROM shown_row s JOIN record_row r ON r.entry_index = s.entry_index
            WHERE s.what = @what AND s.key IN ({string.Join(", ", asked.Select(key => key.Name))}){days}
                AND r.newest = 1 AND {(
                filter.IsKnownAlone ? "r.site = @site" : "(r.site = @site OR r.site IS NULL)"
            )}
            ORDER BY {order} LIMIT @most
            """,
            values
        );
    }

    private static string WordOf(ShownKind what) =>
        what switch
        {
            ShownKind.Machine => "machine",
            ShownKind.Lock => "lock",
            ShownKind.Person => "person",
            ShownKind.Defect => "defect",
            ShownKind.Exception => "exception",
            _ => throw new ArgumentOutOfRangeException(nameof(what)),
        };
}
