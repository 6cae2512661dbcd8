using System.Collections.Concurrent;
using System.Text;
using PdfSharp.Drawing;
using PdfSharp.Fonts;
using ServiceRules.Reporting.Layout;

namespace ServiceRules.Reporting.Pdf;

/// <summary>Measures with the same font program that paints. Safe to share between threads.</summary>
public sealed class FontMeasure : ITextMeasure
{
    /// <summary>Advances are asked once per character at this size and scaled.</summary>
    private const double ProbeSize = 1000;

    private static readonly Lock Probing = new();
    private static readonly ConcurrentDictionary<(Face, int), Glyph> Glyphs = new();

    private FontMeasure() { }

    public static FontMeasure Shipped { get; } = new();

    public double Width(string text, Face face, double size)
    {
        double sum = 0;
        foreach (var rune in text.EnumerateRunes())
        {
            sum += GlyphOf(rune, face).Advance;
        }
        return sum * size / ProbeSize;
    }

    public bool Covers(Rune rune, Face face) => GlyphOf(rune, face).Exists;

    public double Ascent(Face face, double size)
    {
        var metrics = ShippedFonts.Font(face, ProbeSize).Metrics;
        return metrics.Ascent * size / metrics.UnitsPerEm;
    }

    public double Descent(Face face, double size)
    {
        var metrics = ShippedFonts.Font(face, ProbeSize).Metrics;
        return Math.Abs(metrics.Descent) * size / metrics.UnitsPerEm;
    }

    private static Glyph GlyphOf(Rune rune, Face face) =>
        Glyphs.GetOrAdd((face, rune.Value), static key => Probe(key.Item1, new Rune(key.Item2)));

    private static Glyph Probe(Face face, Rune rune)
    {
        // Above U+FFFF the font library writes a wrong text map, so such characters count as not covered.
        if (!rune.IsBmp)
        {
            return new Glyph(false, 0);
        }
        lock (Probing)
        {
            var font = ShippedFonts.Font(face, ProbeSize);
            var exists = GlyphHelper.GlyphIndexFromCodePoint(rune.Value, font) != 0;
            using var context = XGraphics.CreateMeasureContext(
                new XSize(ProbeSize, ProbeSize),
                XGraphicsUnit.Point,
                XPageDirection.Downwards
            );
            return new Glyph(exists, context.MeasureString(rune.ToString(), font).Width);
        }
    }

    private readonly record struct Glyph(bool Exists, double Advance);
}
