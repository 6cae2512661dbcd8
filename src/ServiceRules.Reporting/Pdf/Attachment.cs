namespace ServiceRules.Reporting.Pdf;

/// <summary>A file carried inside the report, under a plain name whose ending tells its type.</summary>
/// <param name="Name">Letters, digits, dots, hyphens and underscores; ends in .json, .proof or .pem.</param>
/// <param name="Description">One line on what it is.</param>
/// <param name="Relation">What it is to the pages.</param>
/// <param name="Content">Its bytes.</param>
public sealed record Attachment(
    string Name,
    string Description,
    AttachmentRelation Relation,
    ReadOnlyMemory<byte> Content
);
