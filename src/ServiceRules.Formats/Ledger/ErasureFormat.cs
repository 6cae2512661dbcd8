using ServiceRules.Formats.Json;
using ServiceRules.Formats.Json.Shapes;
using ServiceRules.Formats.Vocabulary;

namespace ServiceRules.Formats.Ledger;

/// <summary>The erasure as a document.</summary>
public static class ErasureFormat
{
    private static readonly ObjectShape<Erasure> Root = Shape.Object<Erasure>(
        "erasure",
        "A person was forgotten: the name behind a pseudonym, and the contents that named the person.",
        o =>
        {
            var pseudonym = o.Required("pseudonym", Terms.Identity, "whose name", e => e.Pseudonym);
            var contents = o.Items(
                "contents",
                Terms.Digest,
                FormatLimits.ErasedContents,
                "contents that were removed; the entries that name them stay",
                e => e.Contents
            );
            return v => new Erasure(v.Get(pseudonym), v.Get(contents));
        }
    );

    /// <summary>The version that is written today.</summary>
    public static DocumentFormat<Erasure> Current { get; } = new("erasure", 1, ReadLimits.Library, Root);
}
