using ServiceRules.Formats.Json;
using ServiceRules.Rules.Model;

namespace ServiceRules.Formats.Sheets;

/// <summary>The limit sheet as a document: `rules/sheets/*.sheet.json`.</summary>
public static class LimitSheetFormat
{
    /// <summary>The version that is written today.</summary>
    public static DocumentFormat<LimitSheet> Current { get; } =
        new("limit-sheet", 1, ReadLimits.Record, LimitSheetShapes.Sheet);
}
