namespace ServiceRules.Reporting.Verifying.Shape;

/// <summary>An indirect object, with the place of its stream's bytes if it has one.</summary>
internal sealed record PdfObject(int Number, PdfValue Value, Range? Stream)
{
    public PdfValue.Dictionary? Dictionary => Value as PdfValue.Dictionary;
}
