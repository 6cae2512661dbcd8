using System.Collections.Concurrent;
using PdfSharp.Drawing;
using PdfSharp.Fonts;
using PdfSharp.Pdf;
using ServiceRules.Reporting.Layout;

namespace ServiceRules.Reporting.Pdf;

/// <summary>The fonts inside this assembly; the machine's own fonts are never asked for.</summary>
internal sealed class ShippedFonts : IFontResolver
{
    private static readonly ShippedFonts Instance = new();
    private static readonly Lock Registration = new();
    private static readonly ConcurrentDictionary<(Face, double), XFont> Fonts = new();

    /// <summary>One encoding for all text, so that every run can be extracted.</summary>
    private static readonly XPdfFontOptions Options = new(
        PdfFontEncoding.Unicode,
        PdfFontEmbedding.TryComputeSubset
    );

    private ShippedFonts() { }

    public static XFont Font(Face face, double size)
    {
        Register();
        return Fonts.GetOrAdd(
            (face, size),
            key => new XFont(FamilyName(key.Item1), key.Item2, XFontStyleEx.Regular, Options)
        );
    }

    public static byte[] Read(Face face)
    {
        using var stream =
            typeof(ShippedFonts).Assembly.GetManifestResourceStream(FamilyName(face) + ".ttf")
            ?? throw new InvalidOperationException($"font {FamilyName(face)} is not in the assembly");
        using var copy = new MemoryStream();
        stream.CopyTo(copy);
        return copy.ToArray();
    }

    // Each face is a family of its own: nothing is ever emboldened or slanted by calculation.
    public FontResolverInfo? ResolveTypeface(string familyName, bool isBold, bool isItalic) =>
        !isBold && !isItalic && FaceOf(familyName) is not null ? new FontResolverInfo(familyName) : null;

    public byte[]? GetFont(string faceName) => FaceOf(faceName) is { } face ? Read(face) : null;

    private static void Register()
    {
        if (GlobalFontSettings.FontResolver is ShippedFonts)
        {
            return;
        }
        lock (Registration)
        {
            GlobalFontSettings.FontResolver ??= Instance;
        }
    }

    private static string FamilyName(Face face) =>
        face switch
        {
            Face.Text => "Roboto-Regular",
            Face.TextBold => "Roboto-Bold",
            Face.Narrow => "RobotoCondensed-Regular",
            Face.NarrowBold => "RobotoCondensed-Bold",
            _ => throw new ArgumentOutOfRangeException(nameof(face), face, null),
        };

    private static Face? FaceOf(string familyName)
    {
        foreach (var face in Enum.GetValues<Face>())
        {
            if (FamilyName(face) == familyName)
            {
                return face;
            }
        }
        return null;
    }
}
