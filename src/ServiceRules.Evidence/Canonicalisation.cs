using System.Diagnostics.CodeAnalysis;

namespace ServiceRules.Evidence;

/// <summary>The outcome of canonicalising: either a document or the reason why there is none.</summary>
public sealed class Canonicalisation
{
    private readonly CanonicalDocument? _document;
    private readonly CanonicalRefusal? _refusal;

    internal Canonicalisation(CanonicalDocument document) => _document = document;

    internal Canonicalisation(CanonicalRefusal refusal) => _refusal = refusal;

    /// <summary>True with the document, or false with the refusal; never both, never neither.</summary>
    public bool TryGet(
        [NotNullWhen(true)] out CanonicalDocument? document,
        [NotNullWhen(false)] out CanonicalRefusal? refusal
    )
    {
        document = _document;
        refusal = _refusal;
        return _document is not null;
    }
}
