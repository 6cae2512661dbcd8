namespace ServiceRules.Reporting.Layout;

/// <summary>A stretch of a paragraph in one style.</summary>
public sealed record Span(string Content, TextStyle Style);
