using System.Diagnostics.CodeAnalysis;
using System.Globalization;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using ServiceRules.Formats.Imports;

namespace ServiceRules.Application.Importing;

/// <summary>Turns cells into values of a record, or says why one cannot be.</summary>
internal sealed partial class CellReading(TableLayout layout, TableColumns columns, bool countsFrom1904)
{
    private const string DayForm = "yyyy-MM-dd";
    private const string TimeForm = "yyyy-MM-dd'T'HH:mm:ss";
    private const int WordsShown = 12;

    // Below it the count from 1900 has a day that was never there.
    private const decimal FirstSerial = 61m;
    private const decimal LastSerial = 2_958_465m;
    private const int DaysTo1904 = 1462;
    private const int SecondsOfDay = 86_400;

    // What a program for tables adds to a decimal figure, since it counts in binary.
    private const decimal BinaryNoise = 0.000_000_001m;

    /// <summary>
    /// Reads a value of a row whose cells are readable. The answer is false where a problem was added; the value is null where
    /// nothing stands.
    /// </summary>
    /// <param name="value">Where it comes from, and what it becomes.</param>
    /// <param name="row">The row.</param>
    /// <param name="place">Where it goes, as a JSON pointer.</param>
    /// <param name="problems">Takes what is wrong.</param>
    /// <param name="node">The value.</param>
    public bool TryRead(
        MappedValue value,
        TableRow row,
        string place,
        ICollection<RowProblem> problems,
        out JsonNode? node
    )
    {
        node = null;
        if (value.Given is { } given)
        {
            return TryConvert(value, new(given, CellKind.Text), out node, out var unfit)
                || Refuse(problems, row, value, place, unfit);
        }

        var cell = columns.Cell(row, value.Column!);
        Unfit? why = null;
        if (value.And is { } and && !TryJoin(cell, columns.Cell(row, and), out cell, out why))
        {
            return Refuse(problems, row, value, place, why);
        }

        return cell.IsEmpty
            || TryConvert(value, cell, out node, out why)
            || Refuse(problems, row, value, place, why);
    }

    /// <summary>Why a cell tells nothing that a record may hold, or that it does.</summary>
    public static bool IsReadable(TableCell cell, [NotNullWhen(false)] out Unfit? why)
    {
        why = cell.Kind switch
        {
            CellKind.Formula => new(
                "this cell holds a formula, and what it comes to may change",
                cell.Text,
                "its value alone, put in its place"
            ),
            CellKind.Merged => new(
                "this cell is merged with others, so that it cannot be told what belongs to which row",
                cell.Text,
                "the value in each row that it belongs to"
            ),
            CellKind.Fault => new("this cell holds an error", cell.Text, "a value, or nothing"),
            _ when cell.Text.StartsWith('=') => new(
                "this is a formula written as text",
                cell.Text,
                "its value alone"
            ),
            _ => null,
        };
        return why is null;
    }

    private static bool TryJoin(
        TableCell first,
        TableCell second,
        out TableCell joined,
        [NotNullWhen(false)] out Unfit? why
    )
    {
        (joined, why) = (TableCell.Empty, null);
        if (first.IsEmpty && second.IsEmpty)
        {
            return true;
        }

        if (first.IsEmpty || second.IsEmpty)
        {
            why = new(
                "one of the two cells is empty",
                first.IsEmpty ? second.Text : first.Text,
                "both, or neither"
            );
            return false;
        }

        var areNumbers = first.Kind is not CellKind.Text;
        if (areNumbers != second.Kind is not CellKind.Text)
        {
            why = new(
                "one of the two cells is a text and the other a number",
                $"{first.Text}` and `{second.Text}",
                "two texts, or two numbers"
            );
            return false;
        }

        joined = areNumbers
            ? new(
                (Figure(first.Text) + Figure(second.Text)).ToString(CultureInfo.InvariantCulture),
                CellKind.Moment
            )
            : new($"{first.Text} {second.Text}", CellKind.Text);
        return true;
    }

    private bool TryConvert(
        MappedValue value,
        TableCell cell,
        out JsonNode? node,
        [NotNullWhen(false)] out Unfit? why
    )
    {
        node = null;
        why = null;
        if (value.As is ValueForm.Words)
        {
            return TryWords(value, cell, out node, out why);
        }

        var text = cell.Text;
        if (!value.Words.IsEmpty && !TryWord(value, ref text, out why))
        {
            return false;
        }

        cell = value.Words.IsEmpty ? cell : new(text, CellKind.Text);
        if (cell.Kind is CellKind.Moment && value.As is not (ValueForm.Day or ValueForm.Time))
        {
            why = new(
                "this cell is a day or a time, perhaps made out of something else by a program for tables",
                text,
                "the text as it was written, in a cell formatted as text"
            );
            return false;
        }

        switch (value.As)
        {
            case ValueForm.Text:
                node = JsonValue.Create(text);
                return true;
            case ValueForm.Flag:
                var isTrue = text.Equals("true", StringComparison.OrdinalIgnoreCase);
                why =
                    isTrue || text.Equals("false", StringComparison.OrdinalIgnoreCase)
                        ? null
                        : new(
                            "this is neither true nor false",
                            text,
                            "true, false, or what `words` of the mapping say"
                        );
                node = JsonValue.Create(isTrue);
                return why is null;
            case ValueForm.Number:
                if (!TryFigure(value, cell, out var number, out why))
                {
                    return false;
                }

                node = JsonNode.Parse(number);
                return true;
            case ValueForm.Figure:
                if (!TryFigure(value, cell, out var figure, out why))
                {
                    return false;
                }

                node = JsonValue.Create($"{figure} {value.Unit}");
                return true;
            case ValueForm.Day:
            case ValueForm.Time:
                if (!TryMoment(value, cell, out var moment, out why))
                {
                    return false;
                }

                node = JsonValue.Create(moment);
                return true;
            default:
                throw new InvalidOperationException("an unknown form of a value");
        }
    }

    private static bool TryWords(
        MappedValue value,
        TableCell cell,
        out JsonNode? node,
        [NotNullWhen(false)] out Unfit? why
    )
    {
        why = null;
        JsonArray list = [];
        foreach (
            var part in cell.Text.Split(
                value.Between ?? ",",
                StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries
            )
        )
        {
            var text = part;
            if (!value.Words.IsEmpty && !TryWord(value, ref text, out why))
            {
                node = null;
                return false;
            }

            list.Add(JsonValue.Create(text));
        }

        node = list.Count > 0 ? list : null;
        return true;
    }

    private static bool TryWord(MappedValue value, ref string text, [NotNullWhen(false)] out Unfit? why)
    {
        if (value.Words.TryGetValue(text, out var meant))
        {
            text = meant;
            why = null;
            return true;
        }

        var known = string.Join(", ", value.Words.Keys.Take(WordsShown).Select(word => $"`{word}`"));
        why = new(
            "the mapping does not say what this means",
            text,
            value.Words.Count > WordsShown ? $"{known} and others" : known
        );
        return false;
    }

    private bool TryFigure(
        MappedValue value,
        TableCell cell,
        [NotNullWhen(true)] out string? figure,
        [NotNullWhen(false)] out Unfit? why
    )
    {
        figure = null;
        if (cell.Kind is CellKind.Number)
        {
            return TryRounded(value, cell.Text, out figure, out why);
        }

        var text = cell.Text;
        if (value.Unit is { } unit && text.EndsWith(unit, StringComparison.Ordinal))
        {
            text = text[..^unit.Length].TrimEnd();
        }

        var (mark, other) = layout.Decimals is DecimalMark.Comma ? (',', '.') : ('.', ',');
        if (text.Contains(other, StringComparison.Ordinal))
        {
            why = new(
                $"a `{other}` stands in this figure, and the mapping says that decimals follow a `{mark}`",
                cell.Text,
                $"a figure such as `3{mark}80`, without marks between thousands"
            );
            return false;
        }

        figure = text.Replace(',', '.');
        why =
            PlainFigure().IsMatch(figure) || (value.As is ValueForm.Figure && Fraction().IsMatch(figure))
                ? null
                : new(
                    value.As is ValueForm.Number ? "this is no number" : "this is no figure",
                    cell.Text,
                    value.As is ValueForm.Number
                        ? $"a number such as `2` or `0{mark}5`"
                        : $"a figure such as `3{mark}80`, alone or with `{value.Unit}`"
                );
        return why is null;
    }

    // A workbook holds 3.8 as the nearest binary number, and shows as many decimals as its format says.
    private static bool TryRounded(
        MappedValue value,
        string text,
        [NotNullWhen(true)] out string? figure,
        [NotNullWhen(false)] out Unfit? why
    )
    {
        var exact = Figure(text);
        var decimals = value.Decimals;
        var rounded = decimals is { } places ? decimal.Round(exact, places) : exact;
        why =
            Math.Abs(rounded - exact) <= BinaryNoise
                ? null
                : new($"this number has more than {decimals} decimals", text, "as many as the mapping says");
        figure = rounded.ToString(
            decimals is { } wanted ? string.Create(CultureInfo.InvariantCulture, $"F{wanted}") : null,
            CultureInfo.InvariantCulture
        );
        return why is null;
    }

    private bool TryMoment(
        MappedValue value,
        TableCell cell,
        [NotNullWhen(true)] out string? moment,
        [NotNullWhen(false)] out Unfit? why
    )
    {
        why = null;
        var isDay = value.As is ValueForm.Day;
        if (cell.Kind is not CellKind.Text)
        {
            return TrySerial(cell.Text, isDay, value.Offset, out moment, out why);
        }

        if (value.Pattern is not { } pattern)
        {
            moment =
                value.Offset is { } offset && !OwnOffset().IsMatch(cell.Text)
                    ? cell.Text + offset
                    : cell.Text;
            return true;
        }

        var isRead = DateTimeOffset.TryParseExact(
            cell.Text,
            pattern,
            CultureInfo.InvariantCulture,
            DateTimeStyles.AssumeUniversal,
            out var read
        );
        why = isRead
            ? null
            : new(
                SerialText().IsMatch(cell.Text)
                    ? "this is the number by which a program for tables counts days"
                    : $"this is no {(isDay ? "day" : "time")} of the pattern",
                cell.Text,
                $"`{pattern}`"
            );
        moment =
            isDay ? read.ToString(DayForm, CultureInfo.InvariantCulture)
            : pattern.Contains('z', StringComparison.Ordinal)
                ? read.ToString(TimeForm + "zzz", CultureInfo.InvariantCulture)
            : read.ToString(TimeForm, CultureInfo.InvariantCulture) + value.Offset;
        return isRead;
    }

    private bool TrySerial(
        string text,
        bool isDay,
        string? offset,
        [NotNullWhen(true)] out string? moment,
        [NotNullWhen(false)] out Unfit? why
    )
    {
        var serial = Figure(text) + (countsFrom1904 ? DaysTo1904 : 0);
        moment = null;
        why =
            serial is < FirstSerial or > LastSerial
                ? new(
                    "this number is no day of the last hundred years",
                    text,
                    isDay ? "a day" : "a day with its time"
                )
            : isDay && serial != decimal.Truncate(serial)
                ? new("a day is asked for, and this has a time", text, "a day alone")
            : null;
        if (why is not null)
        {
            return false;
        }

        var seconds = (double)decimal.Round((serial - decimal.Truncate(serial)) * SecondsOfDay);
        var read = DateTime.FromOADate((double)decimal.Truncate(serial)).AddSeconds(seconds);
        moment = isDay
            ? read.ToString(DayForm, CultureInfo.InvariantCulture)
            : read.ToString(TimeForm, CultureInfo.InvariantCulture) + offset;
        return true;
    }

    private static decimal Figure(string text) =>
        decimal.Parse(text, NumberStyles.Float, CultureInfo.InvariantCulture);

    private bool Refuse(
        ICollection<RowProblem> problems,
        TableRow row,
        MappedValue value,
        string place,
        Unfit why
    )
    {
        problems.Add(columns.Problem(row.Number, value.Column, why) with { Pointer = place });
        return false;
    }

    [GeneratedRegex(@"\A-?[0-9]{1,20}(\.[0-9]{1,20})?\z")]
    private static partial Regex PlainFigure();

    [GeneratedRegex(@"\A([0-9]{1,6} )?[0-9]{1,4}/[0-9]{1,4}\z")]
    private static partial Regex Fraction();

    [GeneratedRegex(@"([Zz]|[+\-][0-9]{2}:[0-9]{2})\z")]
    private static partial Regex OwnOffset();

    [GeneratedRegex(@"\A[0-9]{5}([.,][0-9]+)?\z")]
    private static partial Regex SerialText();
}
