using ServiceRules.Reporting.Pdf;
using ServiceRules.Reporting.Verifying.Drawn;

namespace ServiceRules.Reporting.Reports;

/// <summary>What a file says of itself, for a place where a report is to be written: nothing of it is believed further.</summary>
public static class EarlierReport
{
    /// <summary>Whether it calls itself a report of this product with the title.</summary>
    /// <param name="file">The whole file.</param>
    /// <param name="title">The title that such a report carries.</param>
    public static bool Is(ReadOnlyMemory<byte> file, string title) =>
        DrawnFile.Read(file).File is { } drawn
        && drawn.DrawnBy.Creator?.StartsWith(DrawingVersion.Name, StringComparison.Ordinal) == true
        && drawn.Information?.TextOf("Title") == PlainAscii.Of(title);
}
