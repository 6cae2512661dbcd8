using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;
using ServiceRules.Formats.Imports;
using ServiceRules.Formats.Records;

namespace ServiceRules.Application.Importing;

/// <summary>Makes one record out of its rows, remembering where each part came from.</summary>
internal sealed class RecordBuilding(
    ImportMapping mapping,
    TableColumns columns,
    CellReading cells,
    int firstRow
)
{
    // What cannot stand in a cell holds the parts of a key apart.
    private const char Apart = '\uFFFF';

    private static readonly JsonSerializerOptions Writing = new()
    {
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
    };

    private readonly HashSet<string> taken = new(StringComparer.Ordinal);
    private readonly List<string> used = [.. mapping.Columns];
    private readonly JsonObject root = new() { ["format"] = RecordFormat.Current.Identifier };
    private readonly RecordPlaces places = new(columns, firstRow);
    private readonly List<RowProblem> problems = [];
    private readonly Dictionary<(string Holder, MappedList List, string Key), int> items = [];

    public void Add(TableRow row)
    {
        // Which items a row has, and which it belongs to, could not be told either.
        var isReadable = true;
        foreach (var column in used)
        {
            if (!CellReading.IsReadable(columns.Cell(row, column), out var why))
            {
                isReadable = false;
                problems.Add(columns.Problem(row.Number, column, why));
            }
        }

        if (!isReadable)
        {
            return;
        }

        taken.Clear();
        Take(mapping.GroupBy);
        Fill(root, "", mapping.Record, row);
        foreach (var list in mapping.Lists)
        {
            AddItem(root, "", list, row);
        }

        problems.AddRange(
            used.Where(column => !taken.Contains(column) && !columns.Cell(row, column).IsEmpty)
                .Select(column => columns.Problem(row.Number, column, Untaken(column, row)))
        );
    }

    public MappedRecord Built(string key) =>
        new(key, firstRow, JsonSerializer.SerializeToUtf8Bytes(root, Writing), [.. problems], places)
        {
            Id = root["id"] is JsonValue id && id.TryGetValue(out string? text) ? text : null,
        };

    private void Take(string? column)
    {
        if (column is not null)
        {
            _ = taken.Add(column);
        }
    }

    // A word misspelled in one row would otherwise leave the row out unseen.
    private Unfit Untaken(string column, TableRow row)
    {
        var words = mapping
            .Lists.SelectMany(list => list.Lists.Prepend(list))
            .Where(list => list.When?.Column == column)
            .SelectMany(list => list.When!.Is)
            .Distinct(StringComparer.Ordinal)
            .Select(word => $"`{word}`");
        return new(
            "this goes nowhere: the mapping has nothing for it in such a row",
            columns.Cell(row, column).Text,
            string.Join(", ", words) is { Length: > 0 } known
                ? $"{known}, or nothing"
                : "an empty cell, or a `when` that names such rows"
        );
    }

    private void AddItem(JsonObject holder, string pointer, MappedList list, TableRow row)
    {
        if (!HasItem(list, row))
        {
            return;
        }

        Take(list.When?.Column);
        foreach (var column in list.Key)
        {
            Take(column);
        }

        var place = pointer + list.In;
        if (Holder(holder, pointer, list.In, row) is not (var above, var name))
        {
            return;
        }

        if ((above[name] ??= new JsonArray()) is not JsonArray array)
        {
            Clash(row, place);
            return;
        }

        var key = (pointer, list, KeyOf(list, row));
        if (!items.TryGetValue(key, out var at))
        {
            at = array.Count;
            items.Add(key, at);
            array.Add(new JsonObject());
            places.Add($"{place}/{at}", row.Number, null);
        }

        var item = array[at]!.AsObject();
        Fill(item, $"{place}/{at}", list.Values, row);
        foreach (var inner in list.Lists)
        {
            AddItem(item, $"{place}/{at}", inner, row);
        }
    }

    private bool HasItem(MappedList list, TableRow row)
    {
        if (list.When is { } when)
        {
            var text = columns.Cell(row, when.Column).Text;
            return when.Is.IsEmpty ? text.Length > 0 : when.Is.Contains(text);
        }

        return !HasColumns(list) || SaysAnything(list, row);
    }

    private bool SaysAnything(MappedList list, TableRow row) =>
        list.Values.Any(value =>
            (value.Column is { } column && !columns.Cell(row, column).IsEmpty)
            || (value.And is { } and && !columns.Cell(row, and).IsEmpty)
        ) || list.Lists.Any(inner => SaysAnything(inner, row));

    private static bool HasColumns(MappedList list) =>
        list.Values.Any(value => value.Column is not null) || list.Lists.Any(HasColumns);

    private string KeyOf(MappedList list, TableRow row) =>
        list.Key.IsEmpty
            ? HasColumns(list)
                ? $"{Apart}{row.Number}"
                : ""
            : string.Join(Apart, list.Key.Select(column => columns.Cell(row, column).Text));

    private void Fill(JsonObject holder, string pointer, IEnumerable<MappedValue> values, TableRow row)
    {
        foreach (var value in values)
        {
            Take(value.Column);
            Take(value.And);
            if (cells.TryRead(value, row, pointer + value.To, problems, out var node) && node is not null)
            {
                Set(holder, pointer, value, node, row);
            }
        }
    }

    private void Set(JsonObject holder, string pointer, MappedValue value, JsonNode node, TableRow row)
    {
        var place = pointer + value.To;
        if (Holder(holder, pointer, value.To, row) is not (var above, var name))
        {
            return;
        }

        if (above[name] is not { } standing)
        {
            above[name] = node;
            places.Add(place, row.Number, value.Column);
        }
        else if (!JsonNode.DeepEquals(standing, node))
        {
            problems.Add(
                columns.Problem(
                    row.Number,
                    value.Column,
                    new(
                        $"rows that belong together differ: row {places.RowOf(place)} says `{CellText.Shown(Said(standing))}`",
                        Said(node),
                        "the same in each row of a record or an item, or nothing"
                    )
                ) with
                {
                    Pointer = place,
                }
            );
        }
    }

    // The object that holds the last name of a place, and that name.
    private (JsonObject Above, string Name)? Holder(
        JsonObject holder,
        string pointer,
        string to,
        TableRow row
    )
    {
        var names = to.Split('/')[1..];
        foreach (var name in names[..^1])
        {
            pointer = $"{pointer}/{name}";
            if ((holder[name] ??= new JsonObject()) is not JsonObject below)
            {
                Clash(row, pointer);
                return null;
            }

            places.Add(pointer, row.Number, null);
            holder = below;
        }

        return (holder, names[^1]);
    }

    private void Clash(TableRow row, string place) =>
        problems.Add(
            new(row.Number, null, "the mapping has two things for one place", "", "each place once")
            {
                Pointer = place,
            }
        );

    private static string Said(JsonNode node) =>
        node is JsonValue ? node.ToString() : node.ToJsonString(Writing);
}
