namespace ServiceRules.Reporting.Verifying.Drawn;

/// <summary>The first place where two files differ.</summary>
/// <param name="Page">The page from 1, or null when it belongs to no single one.</param>
/// <param name="Keys">The keys of the dictionaries on the way to it.</param>
internal sealed record DrawnDifference(int? Page, IReadOnlyList<string> Keys)
{
    /// <summary>It is in what is drawn on a page.</summary>
    public bool IsInMarks => Keys is ["Contents", ..];

    public override string ToString()
    {
        var where = Page is { } number ? $"page {number}: " : "";
        return $"{where}{Meaning()} (at {string.Join('/', Keys)})";
    }

    private string Meaning() =>
        this switch
        {
            { IsInMarks: true } => "other marks are drawn than the attached documents give",
            _ when Has("FontFile2") => "a font program is not the one that reports are drawn with",
            _ when Has("Font") => "a font is not the one that reports are drawn with",
            _ when Has("Annots") => "there are other notes or fields than the signature",
            _ when Has("MediaBox") || Has("CropBox") || Has("Rotate") => "the page has another size or place",
            _ when Has("Kids") => "there are other pages than the attached documents give",
            _ when Has("StructTreeRoot") => "what is read aloud is not what the attached documents give",
            _ when Has("EmbeddedFiles") || Has("AF") =>
                "the attachments are described otherwise than they are",
            _ when Has("Info") || Has("Metadata") => "the file describes itself otherwise than reports do",
            _ => "something else is there than the attached documents give",
        };

    private bool Has(string key) => Keys.Contains(key, StringComparer.Ordinal);
}
