using System.Text;

namespace ServiceRules.Reporting.Layout;

/// <summary>
/// What the layout must know about a font. Widths add up: the width of a string is the sum of the widths of its
/// characters (no kerning, no ligatures), which is what the painter draws.
/// </summary>
public interface ITextMeasure
{
    double Width(string text, Face face, double size);

    bool Covers(Rune rune, Face face);

    double Ascent(Face face, double size);

    double Descent(Face face, double size);
}
