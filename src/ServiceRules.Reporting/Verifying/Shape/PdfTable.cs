namespace ServiceRules.Reporting.Verifying.Shape;

/// <summary>All objects of a file, by number from 1. There is no other road to an object.</summary>
internal sealed class PdfTable(IReadOnlyList<PdfObject> objects, PdfValue.Dictionary trailer)
{
    public IReadOnlyList<PdfObject> Objects => objects;

    public PdfValue.Dictionary Trailer => trailer;

    public PdfValue.Dictionary? Catalog => Find(trailer["Root"])?.Dictionary;

    public PdfObject? Find(PdfValue? reference) =>
        reference is PdfValue.Reference to && to.Object >= 1 && to.Object <= objects.Count
            ? objects[to.Object - 1]
            : null;

    /// <summary>The dictionary itself, or the one referred to.</summary>
    public PdfValue.Dictionary? Resolve(PdfValue? value) =>
        value as PdfValue.Dictionary ?? Find(value)?.Dictionary;
}
