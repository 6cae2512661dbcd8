namespace ServiceRules.Reporting.Layout;

/// <summary>What a group of marks means to a reader who hears the page instead of seeing it.</summary>
public enum StructureRole
{
    Section,
    Heading1,
    Heading2,
    Heading3,
    Paragraph,
    Table,
    TableRow,
    TableHeader,
    TableCell,
    Figure,

    /// <summary>Decoration, running heads and feet: skipped when the page is read aloud.</summary>
    Artifact,
}
