using ServiceRules.Reporting.Reports.Words;

namespace ServiceRules.Reporting.Reports;

/// <summary>How a site wants its reports told.</summary>
public sealed record ReportTerms
{
    public static ReportTerms Default { get; } = new();

    /// <summary>US or UK names of the parts.</summary>
    public TradeWords Trade { get; init; } = TradeWords.Reel;

    /// <summary>Language of the text.</summary>
    public string Language { get; init; } = "en-GB";
}
