namespace ServiceRules.Reporting.Layout;

/// <summary>Face, size in points, colour, and line height as a multiple of the size.</summary>
public sealed record TextStyle(Face Face, double Size, Ink Ink, double LineSpacing = 1.25)
{
    public double LineHeight => Size * LineSpacing;
}
