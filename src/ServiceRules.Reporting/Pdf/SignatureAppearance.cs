using PdfSharp.Drawing;
using PdfSharp.Pdf;
using PdfSharp.Pdf.Annotations;
using PdfSharp.Pdf.Signatures;

namespace ServiceRules.Reporting.Pdf;

/// <summary>
/// Completes the signature dictionary: the library calls this after the dictionary exists and before anything is
/// written, the one moment when its fixed entries can be replaced. It draws nothing: the words of the visible
/// signature are part of the page, so that they are read aloud and extracted like all others.
/// </summary>
internal sealed class SignatureAppearance(PdfDocument document, string signedBy, DateTimeOffset signedAt)
    : IAnnotationAppearanceHandler
{
    public void DrawAppearance(XGraphics gfx, XRect rect)
    {
        Complete(document.Internals.GetAllObjects().OfType<PdfSignature2>().Single());
    }

    private void Complete(PdfSignature2 signature)
    {
        signature.Elements.SetName("/SubFilter", "/ETSI.CAdES.detached");
        signature.Elements["/M"] = new PdfString(PdfInstant.Format(signedAt));
        signature.Elements["/Name"] = new PdfString(PlainAscii.Of(signedBy));
    }
}
