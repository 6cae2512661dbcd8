using System.Text;
using ServiceRules.Reporting.Layout;

namespace ServiceRules.Reporting.Tests.Layout;

/// <summary>Every character is half its size wide; only U+0020 to U+00FF exist. Layout can be worked out by hand.</summary>
internal sealed class PlainMeasure : ITextMeasure
{
    public double Width(string text, Face face, double size) => text.EnumerateRunes().Count() * size / 2;

    public bool Covers(Rune rune, Face face) => rune.Value is >= 0x20 and <= 0xFF;

    public double Ascent(Face face, double size) => size * 0.75;

    public double Descent(Face face, double size) => size * 0.25;
}
