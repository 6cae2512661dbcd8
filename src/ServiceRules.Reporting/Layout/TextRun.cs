namespace ServiceRules.Reporting.Layout;

/// <summary>Characters of one style within a line; X from the line's left end.</summary>
internal sealed record TextRun(string Content, TextStyle Style, double X, double Width);
