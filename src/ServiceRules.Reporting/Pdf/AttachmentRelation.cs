namespace ServiceRules.Reporting.Pdf;

/// <summary>What an attachment is to the pages (ISO 32000-2, 7.11.3).</summary>
public enum AttachmentRelation
{
    /// <summary>The original that the pages were made from.</summary>
    Source,

    /// <summary>What was used to derive what the pages show.</summary>
    Data,

    /// <summary>Adds to them.</summary>
    Supplement,
}
