namespace ServiceRules.Reporting.Layout;

/// <summary>How a <see cref="Frame"/> looks; lengths in points.</summary>
public sealed record FrameStyle(double PaddingX, double PaddingY)
{
    public Ink? Fill { get; init; }

    public Stroke? Outline { get; init; }

    public double Radius { get; init; }

    /// <summary>Colour of the bar along the left edge, none when null.</summary>
    public Ink? Bar { get; init; }

    public double BarWidth { get; init; }
}
