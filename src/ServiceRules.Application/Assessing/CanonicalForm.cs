using ServiceRules.Evidence;

namespace ServiceRules.Application.Assessing;

/// <summary>The canonical form of documents that were read without problems, or written by this product.</summary>
internal static class CanonicalForm
{
    private static ReadOnlySpan<byte> ByteOrderMark => [0xEF, 0xBB, 0xBF];

    public static CanonicalDocument Of(ReadOnlySpan<byte> utf8Json) =>
        CanonicalJson
            .Canonicalise(utf8Json.StartsWith(ByteOrderMark) ? utf8Json[3..] : utf8Json)
            .TryGet(out var document, out var refusal)
            ? document
            // What the strict reader accepts has a canonical form; anything else is a defect of this product.
            : throw new InvalidOperationException(refusal.ToString());
}
