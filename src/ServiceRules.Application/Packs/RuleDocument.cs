using ServiceRules.Application.Assessing;
using ServiceRules.Formats.Packs;
using ServiceRules.Rules.Model;

namespace ServiceRules.Application.Packs;

/// <summary>Packs and sheets in their canonical spelling, and the digest by which assessments name them.</summary>
public sealed record RuleDocument(string Digest, ReadOnlyMemory<byte> Bytes)
{
    public static RuleDocument Of(RuleBook book)
    {
        var written = CanonicalForm.Of(RulePackFormat.Book.Write(book));
        return new(written.Hash.ToString(), written.Bytes);
    }
}
