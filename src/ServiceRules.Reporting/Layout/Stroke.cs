namespace ServiceRules.Reporting.Layout;

/// <summary>How a line is drawn; width in points.</summary>
public sealed record Stroke(Ink Ink, double Width, Dash Dash = Dash.Solid);
