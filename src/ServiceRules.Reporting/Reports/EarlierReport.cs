using ServiceRules.Reporting.Pdf;
using ServiceRules.Reporting.Verifying.Drawn;

namespace ServiceRules.Reporting.Reports;

/// <summary>What a file says of itself, for a place where a report is to be written: nothing of it is believed further.</summary>
public static class EarlierReport
{
    /// <summary>Whether it calls itself a report of this product on the record.</summary>
    /// <param name="file">The whole file.</param>
    /// <param name="record">Identity of the record.</param>
    public static bool IsOf(ReadOnlyMemory<byte> file, string record) =>
        TitleOf(file) is { } title
        && (
            title == PlainAscii.Of(JobReport.TitleOf(record))
            || title == PlainAscii.Of(SafeWorkReport.TitleStart + record)
        );

    /// <summary>Whether it calls itself a report of this product on safe work over some time, of whichever.</summary>
    /// <param name="file">The whole file.</param>
    public static bool IsOfPeriod(ReadOnlyMemory<byte> file) =>
        TitleOf(file) is { } title
        && title.StartsWith(SafeWorkReport.TitleStart, StringComparison.Ordinal)
        // No identity has a space in it.
        && title.Contains(" to ", StringComparison.Ordinal);

    private static string? TitleOf(ReadOnlyMemory<byte> file) =>
        DrawnFile.Read(file).File is { } drawn
        && drawn.DrawnBy.Creator?.StartsWith(DrawingVersion.Name, StringComparison.Ordinal) == true
            ? drawn.Information?.TextOf("Title")
            : null;
}
