using System.Text.RegularExpressions;

namespace ServiceRules.Reporting.Reports.Words;

/// <summary>Says finished sentences in the site's own names for the parts.</summary>
internal static partial class TradeVocabulary
{
    public static string Say(string text, TradeWords words) =>
        words == TradeWords.Reel ? text : Parts.Replace(text, match => Uk(match.Value));

    private static string Uk(string us) =>
        us switch
        {
            "reel" => "cylinder",
            "Reel" => "Cylinder",
            "reels" => "cylinders",
            "Reels" => "Cylinders",
            "bedknife" => "bottom blade",
            "Bedknife" => "Bottom blade",
            "bedknives" => "bottom blades",
            "Bedknives" => "Bottom blades",
            _ => us,
        };

    // Identities stay as they are: whatever stands in backticks, and names such as reel-125-9-510.
    [GeneratedRegex(@"`[^`]*`|(?<!\w)(?:[Rr]eels?|[Bb]edknife|[Bb]edknives)(?!\w|-\d)")]
    private static partial Regex Parts { get; }
}
