using System.Collections.Immutable;
using ServiceRules.Formats.Imports;

namespace ServiceRules.Application.Importing;

/// <summary>Where the columns of a table are, held against what a mapping asks for.</summary>
internal sealed class TableColumns
{
    private const int NamesShown = 30;

    private readonly Dictionary<string, int> places = new(StringComparer.Ordinal);

    public TableColumns(Table table)
    {
        for (var at = 0; at < table.Headings.Length; at++)
        {
            _ = places.TryAdd(table.Headings[at], at);
        }
    }

    public TableCell Cell(TableRow row, string heading) => row.Cells[places[heading]];

    public RowProblem Problem(int row, string? heading, Unfit why) =>
        new(row, heading, why.What, why.Found, why.Accepted)
        {
            Letter =
                heading is not null && places.TryGetValue(heading, out var at)
                    ? RowProblem.LetterOf(at)
                    : null,
        };

    /// <summary>Everything by which the headings are not those that the mapping speaks of.</summary>
    public ImmutableArray<RowProblem> Faults(Table table, ImportMapping mapping)
    {
        var wanted = mapping.Columns.ToList();
        var known = wanted.Concat(mapping.LeftOut).ToHashSet(StringComparer.Ordinal);
        return
        [
            .. wanted
                .Concat(mapping.LeftOut)
                .Where(heading => !places.ContainsKey(heading))
                .Select(heading => new RowProblem(
                    table.HeadingRow,
                    heading,
                    "there is no such column",
                    "",
                    $"a column with this heading; there are {Names(table)}"
                )),
            .. table.Headings.SelectMany((heading, at) => Faults(table, known, heading, at)),
        ];
    }

    private IEnumerable<RowProblem> Faults(Table table, HashSet<string> known, string heading, int at)
    {
        var letter = RowProblem.LetterOf(at);
        if (heading.Length == 0)
        {
            if (table.Rows.FirstOrDefault(row => !row.Cells[at].IsEmpty) is { } used)
            {
                yield return new(
                    used.Number,
                    "",
                    "something stands in a column without a heading",
                    used.Cells[at].Text,
                    "a heading, or an empty column"
                )
                {
                    Letter = letter,
                };
            }
        }
        else if (places[heading] != at)
        {
            yield return new(
                table.HeadingRow,
                heading,
                $"this is the heading of column {RowProblem.LetterOf(places[heading])} too",
                "",
                "each heading once"
            )
            {
                Letter = letter,
            };
        }
        else if (!known.Contains(heading))
        {
            yield return new(
                table.HeadingRow,
                heading,
                "the mapping does not say where this column goes",
                "",
                "a place for it, or its heading in `leftOut` of the mapping"
            )
            {
                Letter = letter,
            };
        }
    }

    private static string Names(Table table)
    {
        var named = table.Headings.Where(heading => heading.Length > 0).ToList();
        var shown = string.Join(
            ", ",
            named.Take(NamesShown).Select(heading => $"`{CellText.Shown(heading)}`")
        );
        return named.Count == 0 ? "none"
            : named.Count > NamesShown ? $"{shown} and others"
            : shown;
    }
}
