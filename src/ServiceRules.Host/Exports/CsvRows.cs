using System.Globalization;
using System.Reflection;
using System.Text.Json;
using CsvHelper;
using CsvHelper.Configuration;

namespace ServiceRules.Host.Exports;

/// <summary>
/// Rows as CSV: a column for each member, named as in JSON. What a program for tables would take for a formula is written
/// with an apostrophe before it.
/// </summary>
internal static class CsvRows
{
    private const string Together = " ";

    private static readonly CsvConfiguration Writing = new(CultureInfo.InvariantCulture)
    {
        NewLine = "\r\n",
        InjectionOptions = InjectionOptions.Escape,
        // Of line ends it quotes by itself only the one that ends rows.
        ShouldQuote = cell =>
            ConfigurationFunctions.ShouldQuote(cell) || cell.Field.AsSpan().ContainsAny('\r', '\n'),
    };

    public static async Task WriteAsync<T>(TextWriter text, IEnumerable<T> rows, CancellationToken stop)
        where T : class
    {
        var members = typeof(T).GetProperties(BindingFlags.Public | BindingFlags.Instance);
        await using var csv = new CsvWriter(text, Writing, leaveOpen: true);
        foreach (var member in members)
        {
            csv.WriteField(JsonNamingPolicy.CamelCase.ConvertName(member.Name));
        }

        await csv.NextRecordAsync();
        foreach (var row in rows)
        {
            stop.ThrowIfCancellationRequested();
            foreach (var member in members)
            {
                csv.WriteField(Cell(member.GetValue(row)));
            }

            await csv.NextRecordAsync();
        }

        await csv.FlushAsync();
        await text.FlushAsync(stop);
    }

    private static string Cell(object? value) =>
        value switch
        {
            null => "",
            bool flag => flag ? "true" : "false",
            DateOnly day => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture),
            DateTimeOffset at => at.UtcDateTime.ToString(
                "yyyy-MM-dd'T'HH:mm:ss.fff'Z'",
                CultureInfo.InvariantCulture
            ),
            IEnumerable<string> words => string.Join(Together, words),
            IFormattable number => number.ToString(null, CultureInfo.InvariantCulture),
            _ => value.ToString() ?? "",
        };
}
