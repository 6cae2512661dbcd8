using ServiceRules.Formats.Json;
using ServiceRules.Formats.Json.Shapes;
using ServiceRules.Formats.Vocabulary;

namespace ServiceRules.Formats.Ledger;

/// <summary>The expiry as a document.</summary>
public static class ExpiryFormat
{
    private static readonly ObjectShape<Expiry> Root = Shape.Object<Expiry>(
        "expiry",
        "Contents that were removed because their time was over, or given up since they were lost; the entries that name them stay.",
        o =>
        {
            var contents = o.Items(
                "contents",
                Terms.Digest,
                FormatLimits.ErasedContents,
                "contents that were removed",
                one => one.Contents
            );
            return v => new Expiry(v.Get(contents));
        }
    );

    /// <summary>The version that is written today.</summary>
    public static DocumentFormat<Expiry> Current { get; } = new("expiry", 1, ReadLimits.Library, Root);
}
