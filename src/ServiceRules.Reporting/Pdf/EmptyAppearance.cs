using PdfSharp.Drawing;
using PdfSharp.Pdf.Annotations;

namespace ServiceRules.Reporting.Pdf;

/// <summary>
/// Draws nothing: the words of the visible signature are part of the page, so that they are read aloud and extracted like
/// all others.
/// </summary>
internal sealed class EmptyAppearance : IAnnotationAppearanceHandler
{
    public void DrawAppearance(XGraphics gfx, XRect rect) { }
}
