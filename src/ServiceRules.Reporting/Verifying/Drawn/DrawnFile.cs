using ServiceRules.Reporting.Reports;
using ServiceRules.Reporting.Verifying.Shape;

namespace ServiceRules.Reporting.Verifying.Drawn;

/// <summary>A file with its objects, and what of it is compared.</summary>
internal sealed class DrawnFile(ReadOnlyMemory<byte> bytes, PdfTable table)
{
    public PdfTable Table => table;

    /// <summary>The file, or why its bytes are not in the shape of reports.</summary>
    public static (DrawnFile? File, string? Fault) Read(ReadOnlyMemory<byte> bytes)
    {
        var (table, fault) = PdfTableReader.Read(bytes);
        return table is null ? (null, fault) : (new DrawnFile(bytes, table), null);
    }

    public ReadOnlyMemory<byte> this[Range range] => bytes[range];

    public PdfValue.Dictionary? Information => table.Resolve(table.Trailer["Info"]);

    /// <summary>What drew the file, in its own words.</summary>
    public (string? Creator, string? Producer) DrawnBy =>
        (Information?.TextOf("Creator"), Information?.TextOf("Producer"));

    /// <summary>
    /// It calls itself a report about safe work. Which kind it is decides what is drawn; that it calls itself so is compared
    /// like everything else.
    /// </summary>
    public bool IsOfSafeWork =>
        Information?.TextOf("Title")?.StartsWith(SafeWorkReport.TitleStart, StringComparison.Ordinal) == true;

    /// <summary>The pages in order, or null when they are not in one plain list.</summary>
    public IReadOnlyList<PdfObject>? Pages()
    {
        if (table.Resolve(table.Catalog?["Pages"])?["Kids"] is not PdfValue.Array kids)
        {
            return null;
        }
        var pages = kids.Items.Select(table.Find).OfType<PdfObject>().ToList();
        return pages.Count == kids.Items.Length && pages.All(page => page.Dictionary?.IsType("Page") == true)
            ? pages
            : null;
    }
}
