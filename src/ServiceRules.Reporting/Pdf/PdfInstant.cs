using System.Globalization;

namespace ServiceRules.Reporting.Pdf;

/// <summary>The PDF date form, always in UTC: <c>D:20260102030405Z</c>.</summary>
internal static class PdfInstant
{
    public static string Format(DateTimeOffset at) =>
        at.ToUniversalTime().ToString("'D:'yyyyMMddHHmmss'Z'", CultureInfo.InvariantCulture);
}
