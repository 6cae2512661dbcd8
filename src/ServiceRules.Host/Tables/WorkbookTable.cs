using System.Globalization;
using System.IO.Compression;
using System.Xml;
using DocumentFormat.OpenXml;
using DocumentFormat.OpenXml.Packaging;
using DocumentFormat.OpenXml.Spreadsheet;
using ServiceRules.Application.Importing;
using ServiceRules.Formats.Imports;

namespace ServiceRules.Host.Tables;

/// <summary>One sheet of a workbook (XLSX, ISO/IEC 29500) as a table. Nothing in it is computed or fetched.</summary>
internal static class WorkbookTable
{
    private const string Accepted = "a workbook saved as XLSX, or CSV in UTF-8";

    public static TableOutcome Read(ReadOnlyMemory<byte> bytes, TableLayout layout, TableBuilding building)
    {
        try
        {
            var held = bytes.ToArray();
            using var sized = new MemoryStream(held, writable: false);
            if (!Fits(sized))
            {
                return new TableOutcome.Refused(
                    "the workbook unpacks to more than any table holds",
                    $"at most {TableLimits.UnpackedBytes / 1024 / 1024} MiB"
                );
            }

            using var stream = new MemoryStream(held, writable: false);
            using var document = SpreadsheetDocument.Open(
                stream,
                isEditable: false,
                new OpenSettings { MaxCharactersInPart = TableLimits.UnpackedBytes }
            );
            return Read(document.WorkbookPart, layout, building);
        }
        catch (Exception wrong)
            when (wrong
                    is IOException
                        or InvalidDataException
                        or FormatException
                        or XmlException
                        or OpenXmlPackageException
                        or ArgumentException
                        or InvalidOperationException
                        or NotSupportedException
                        or OverflowException
            )
        {
            return new TableOutcome.Refused(
                "this is no workbook that can be read, or it is damaged",
                Accepted
            );
        }
    }

    private static bool Fits(Stream stream)
    {
        using var archive = new ZipArchive(stream, ZipArchiveMode.Read, leaveOpen: true);
        // Unpacking ends where an entry says it ends, so that what they say is what they can cost.
        return archive.Entries.Sum(entry => entry.Length) <= TableLimits.UnpackedBytes;
    }

    private static TableOutcome Read(WorkbookPart? book, TableLayout layout, TableBuilding building)
    {
        var sheets = book?.Workbook?.Sheets?.Elements<Sheet>().ToList() ?? [];
        var names = string.Join(", ", sheets.Take(20).Select(sheet => $"`{sheet.Name}`"));
        if (layout.Sheet is null && sheets.Count != 1)
        {
            return new TableOutcome.Refused(
                string.Create(CultureInfo.InvariantCulture, $"the workbook has {sheets.Count} sheets"),
                $"the name of one in `table.sheet` of the mapping: {names}"
            );
        }

        var sheet = layout.Sheet is null ? sheets[0] : sheets.Find(one => one.Name?.Value == layout.Sheet);
        if (sheet is null)
        {
            return new TableOutcome.Refused($"the workbook has no sheet `{layout.Sheet}`", $"one of {names}");
        }

        if (sheet.Id?.Value is not { } id || book!.GetPartById(id) is not WorksheetPart part)
        {
            return new TableOutcome.Refused($"`{sheet.Name}` is no sheet of cells", "a sheet with a table");
        }

        if (SheetTexts.Of(book.SharedStringTablePart) is not { } texts)
        {
            return new TableOutcome.Refused(
                "the workbook holds more text than any table",
                $"at most {TableLimits.TextCharacters} characters"
            );
        }

        var cells = new SheetCells(texts, SheetStyles.Of(book.WorkbookStylesPart));
        Read(part, cells, building);
        return building.Built(book.Workbook!.WorkbookProperties?.Date1904?.Value ?? false);
    }

    private static void Read(WorksheetPart part, SheetCells cells, TableBuilding building)
    {
        using var reader = OpenXmlReader.Create(part);
        var number = 0;
        var more = reader.Read();
        while (more)
        {
            if (reader.ElementType == typeof(Row) && reader.IsStartElement)
            {
                var row = (Row)reader.LoadCurrentElement()!;
                number = row.RowIndex?.HasValue == true ? checked((int)row.RowIndex.Value) : number + 1;
                if (!building.Add(number, cells.Of(row)))
                {
                    return;
                }
            }
            else if (reader.ElementType == typeof(MergeCell) && reader.IsStartElement)
            {
                if (!Mark((MergeCell)reader.LoadCurrentElement()!, building))
                {
                    building.Fault(number, "too many cells are merged", "", "a table without merged cells");
                    return;
                }
            }
            else
            {
                more = reader.Read();
            }
        }
    }

    private static bool Mark(MergeCell merged, TableBuilding building)
    {
        var corners = (merged.Reference?.Value ?? "").Split(':');
        var (firstRow, firstColumn) = SheetCells.PlaceOf(corners[0]);
        var (lastRow, lastColumn) = SheetCells.PlaceOf(corners[^1]);
        return building.TryMark(firstRow..(lastRow + 1), firstColumn..(lastColumn + 1), CellKind.Merged);
    }
}
