using ServiceRules.Reporting.Layout;

namespace ServiceRules.Reporting.Reports.Wall;

/// <summary>Type to be read from where one stands at the bench; smaller only as far as one page needs it.</summary>
/// <param name="scale">1 is the largest.</param>
internal sealed class WallType(double scale)
{
    /// <summary>Largest first; below the last of them a sheet takes a second page.</summary>
    public static readonly double[] Scales = [1, 0.95, 0.9, 0.85, 0.8, 0.76, 0.72];

    public double Scale => scale;

    public TableStyle Lines =>
        new(3, 1.7 * scale, Palette.HairLine) { HeaderFill = Palette.Ground, HeaderLine = Palette.Outline };

    public TextStyle Title => new(Face.TextBold, 24 * scale, Palette.Ink, 1.15);

    public TextStyle Heading => new(Face.TextBold, 13 * scale, Palette.Ink, 1.3);

    public TextStyle Body => new(Face.Text, 11 * scale, Palette.Ink, 1.3);

    public TextStyle Bold => new(Face.TextBold, 11 * scale, Palette.Ink, 1.3);

    public TextStyle Quiet => new(Face.Narrow, 9.5 * scale, Palette.Quiet, 1.25);

    public TextStyle Small => new(Face.Narrow, 9.5 * scale, Palette.Ink, 1.25);
}
