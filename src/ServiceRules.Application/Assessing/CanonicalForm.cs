using ServiceRules.Evidence;

namespace ServiceRules.Application.Assessing;

/// <summary>The canonical form of documents that were read without problems, or written by this product.</summary>
internal static class CanonicalForm
{
    private static ReadOnlySpan<byte> ByteOrderMark => [0xEF, 0xBB, 0xBF];

    /// <summary>The canonical form of what was not read yet; null where it has none.</summary>
    public static CanonicalDocument? Find(ReadOnlySpan<byte> utf8Json) =>
        CanonicalJson.Canonicalise(Text(utf8Json)).TryGet(out var document, out _) ? document : null;

    public static CanonicalDocument Of(ReadOnlySpan<byte> utf8Json) =>
        CanonicalJson.Canonicalise(Text(utf8Json)).TryGet(out var document, out var refusal)
            ? document
            // What the strict reader accepts has a canonical form; anything else is a defect of this product.
            : throw new InvalidOperationException(refusal.ToString());

    private static ReadOnlySpan<byte> Text(ReadOnlySpan<byte> utf8Json) =>
        utf8Json.StartsWith(ByteOrderMark) ? utf8Json[3..] : utf8Json;
}
