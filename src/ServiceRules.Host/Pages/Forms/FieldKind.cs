namespace ServiceRules.Host.Pages.Forms;

/// <summary>How a field is filled in.</summary>
public enum FieldKind
{
    /// <summary>A line of text.</summary>
    Line,

    /// <summary>Some sentences.</summary>
    Prose,

    /// <summary>A day.</summary>
    Day,

    /// <summary>One of a list.</summary>
    Choice,
}
