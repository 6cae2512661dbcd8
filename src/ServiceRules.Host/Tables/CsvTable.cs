using System.Globalization;
using System.Text;
using CsvHelper;
using CsvHelper.Configuration;
using ServiceRules.Application.Importing;
using ServiceRules.Formats.Imports;

namespace ServiceRules.Host.Tables;

/// <summary>A table as CSV (RFC 4180) in UTF-8, with or without a byte order mark.</summary>
internal static class CsvTable
{
    private const char Quote = '"';

    private static readonly UTF8Encoding Strict = new(false, throwOnInvalidBytes: true);

    public static TableOutcome Read(ReadOnlyMemory<byte> bytes, TableLayout layout, TableBuilding building)
    {
        if (
            bytes.Span.StartsWith(Encoding.Unicode.Preamble)
            || bytes.Span.StartsWith(Encoding.BigEndianUnicode.Preamble)
        )
        {
            return new TableOutcome.Refused("the file is in UTF-16", "CSV in UTF-8");
        }

        var content = bytes.Span.StartsWith(Encoding.UTF8.Preamble)
            ? bytes[Encoding.UTF8.Preamble.Length..]
            : bytes;
        string text;
        try
        {
            text = Strict.GetString(content.Span);
        }
        catch (DecoderFallbackException wrong)
        {
            return new TableOutcome.Refused([
                new(
                    0,
                    null,
                    $"line {LineOf(content.Span, wrong.Index)} is not in UTF-8",
                    string.Concat(wrong.BytesUnknown?.Select(one => $"{one:X2} ") ?? []).TrimEnd(),
                    "CSV saved in UTF-8, or a workbook (XLSX)"
                ),
            ]);
        }

        Read(text, layout, building);
        return building.Built();
    }

    private static void Read(string text, TableLayout layout, TableBuilding building)
    {
        var isBad = false;
        using var reader = new StringReader(text);
        using var parser = new CsvParser(
            reader,
            new CsvConfiguration(CultureInfo.InvariantCulture)
            {
                Delimiter = layout.Separator switch
                {
                    CellSeparator.Semicolon => ";",
                    CellSeparator.Tab => "\t",
                    _ => ",",
                },
                Quote = Quote,
                // Blank lines count as rows, as programs for tables show them.
                IgnoreBlankLines = false,
                BadDataFound = _ => isBad = true,
            }
        );
        for (var number = 1; parser.Read(); number++)
        {
            var cells = parser.Record ?? [];
            // In a sound row each quotation mark has its second.
            if (isBad || parser.RawRecord.AsSpan().Count(Quote) % 2 != 0)
            {
                building.Fault(
                    number,
                    "a quotation mark stands where none may, or its second is missing",
                    parser.RawRecord.Trim(),
                    "cells with quotation marks in quotation marks, and each of theirs doubled"
                );
                isBad = false;
            }
            else if (!IsBlank(cells) && building.HeadingWidth is { } width && cells.Length != width)
            {
                building.Fault(
                    number,
                    string.Create(
                        CultureInfo.InvariantCulture,
                        $"the row has {cells.Length} cells, and there are {width} headings"
                    ),
                    parser.RawRecord.Trim(),
                    "as many cells as headings; a cell that holds the separator stands in quotation marks"
                );
            }
            else if (
                !building.Add(
                    number,
                    Array.ConvertAll(cells, cell => new TableCell(cell.Trim(), CellKind.Text))
                )
            )
            {
                return;
            }
        }
    }

    private static bool IsBlank(string[] cells) => Array.TrueForAll(cells, string.IsNullOrWhiteSpace);

    private static int LineOf(ReadOnlySpan<byte> bytes, int index) =>
        1 + bytes[..Math.Clamp(index, 0, bytes.Length)].Count((byte)'\n');
}
