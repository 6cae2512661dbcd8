using ServiceRules.Application.Importing;
using ServiceRules.Formats.Imports;

namespace ServiceRules.Host.Tables;

/// <summary>Reads the bytes of a file as a table: CSV in UTF-8, or a workbook (XLSX). What it is, its first bytes say.</summary>
public static class TableFile
{
    private static ReadOnlySpan<byte> Zip => "PK\u0003\u0004"u8;
    private static ReadOnlySpan<byte> OldOffice => [0xD0, 0xCF, 0x11, 0xE0];

    /// <param name="bytes">The file, whole.</param>
    /// <param name="layout">How it is written.</param>
    public static TableOutcome Read(ReadOnlyMemory<byte> bytes, TableLayout layout)
    {
        ArgumentNullException.ThrowIfNull(layout);
        if (bytes.Length > TableLimits.Bytes)
        {
            return new TableOutcome.Refused(
                "the file is larger than any table",
                $"at most {TableLimits.Bytes / 1024 / 1024} MiB; a long table can be told in several files"
            );
        }

        if (bytes.Span.StartsWith(OldOffice))
        {
            return new TableOutcome.Refused(
                "this is a workbook of the old kind, or one behind a password",
                "a workbook saved as XLSX without a password, or CSV in UTF-8"
            );
        }

        var building = new TableBuilding(layout.HeadingRow);
        return bytes.Span.StartsWith(Zip)
            ? WorkbookTable.Read(bytes, layout, building)
            : CsvTable.Read(bytes, layout, building);
    }
}
