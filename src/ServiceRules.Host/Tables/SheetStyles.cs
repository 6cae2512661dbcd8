using DocumentFormat.OpenXml.Packaging;
using DocumentFormat.OpenXml.Spreadsheet;

namespace ServiceRules.Host.Tables;

/// <summary>Which styles of a workbook show a number as a day or a time.</summary>
internal static class SheetStyles
{
    // Numbers of formats that every workbook has (ISO/IEC 29500-1:2016, 18.8.30).
    private static readonly (uint First, uint Last)[] BuiltIn = [(14, 22), (27, 36), (45, 47), (50, 58)];

    public static HashSet<uint> Of(WorkbookStylesPart? part)
    {
        HashSet<uint> moments = [];
        if (part?.Stylesheet is not { } styles)
        {
            return moments;
        }

        var own = (styles.NumberingFormats?.Elements<NumberingFormat>() ?? [])
            .Where(format => ShowsMoment(format.FormatCode?.Value ?? ""))
            .Select(format => format.NumberFormatId?.Value ?? 0)
            .ToHashSet();
        var at = 0u;
        foreach (var format in styles.CellFormats?.Elements<CellFormat>() ?? [])
        {
            var id = format.NumberFormatId?.Value ?? 0;
            if (own.Contains(id) || Array.Exists(BuiltIn, range => id >= range.First && id <= range.Last))
            {
                moments.Add(at);
            }

            at++;
        }

        return moments;
    }

    /// <summary>Whether a format has a sign of a day or a time outside what it shows as it stands.</summary>
    internal static bool ShowsMoment(string format)
    {
        for (var at = 0; at < format.Length; at++)
        {
            switch (format[at])
            {
                case '"':
                    at = End(format, at, '"');
                    break;
                case '[':
                    var end = End(format, at, ']');
                    // In brackets stand colours and conditions, and hours beyond a day.
                    if (format[(at + 1)..end].TrimEnd('h', 'm', 's', 'H', 'M', 'S').Length == 0)
                    {
                        return true;
                    }

                    at = end;
                    break;
                case '\\' or '_' or '*':
                    at++;
                    break;
                case 'd' or 'm' or 'y' or 'h' or 's' or 'D' or 'M' or 'Y' or 'H' or 'S':
                    return true;
            }
        }

        return false;
    }

    private static int End(string format, int at, char sign)
    {
        var end = format.IndexOf(sign, at + 1);
        return end < 0 ? format.Length : end;
    }
}
