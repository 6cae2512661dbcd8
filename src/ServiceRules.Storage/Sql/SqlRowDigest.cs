using System.Globalization;
using System.Text;
using ServiceRules.Application.Rows;
using ServiceRules.Evidence;

namespace ServiceRules.Storage.Sql;

/// <summary>
/// SHA-256 over rows as they stand in their columns, each value by its kind and a text by its length too, so that no two of them
/// have one spelling; the rows in the order of their spellings.
/// </summary>
internal static class SqlRowDigest
{
    /// <summary>Of no row at all.</summary>
    public static readonly byte[] None = Of([]);

    public static byte[] Of(IEnumerable<object?[]> rows) =>
        ContentHash
            .Of(Encoding.UTF8.GetBytes(string.Concat(rows.Select(Spelling).Order(StringComparer.Ordinal))))
            .ToBytes();

    public static byte[] Of(RecordRow row) => Of([SqlRows.Values(row)]);

    private static string Spelling(object?[] row)
    {
        var text = new StringBuilder();
        foreach (var value in row)
        {
            _ = value switch
            {
                null => text.Append('-'),
                string words => text.Append(CultureInfo.InvariantCulture, $"t{words.Length}:{words}"),
                // What a column of these tables never holds still has a spelling, and one that is no row's.
                _ => text.Append(CultureInfo.InvariantCulture, $"{(value is long ? 'n' : '?')}{value};"),
            };
        }

        return text.Append('\n').ToString();
    }
}
