using System.Text;

namespace ServiceRules.Evidence.Tests;

/// <summary>The canonical form as text, for tests that expect success.</summary>
internal static class CanonicalText
{
    public static string Of(string json) => Of(Encoding.UTF8.GetBytes(json));

    public static string Of(byte[] json) => Encoding.UTF8.GetString(DocumentOf(json).Bytes.Span);

    public static CanonicalDocument DocumentOf(byte[] json)
    {
        var accepted = CanonicalJson.Canonicalise(json).TryGet(out var document, out var refusal);
        Assert.True(accepted, refusal?.ToString());
        return document!;
    }
}
