using PdfSharp.Drawing;
using PdfSharp.Pdf;
using PdfSharp.Pdf.AcroForms;
using PdfSharp.Pdf.Annotations;
using PdfSharp.Pdf.Signatures;
using PdfSharp.Pdf.Structure;
using ServiceRules.Reporting.Signing;

namespace ServiceRules.Reporting.Pdf;

/// <summary>
/// Completes the signature dictionary and its field: the library calls this after both exist and before anything is
/// written, the one moment when its fixed entries can be replaced. It draws nothing: the words of the visible
/// signature are part of the page, so that they are read aloud and extracted like all others.
/// </summary>
internal sealed class SignatureAppearance(
    PdfDocument document,
    SignatureRoom room,
    SignatureStatement statement
) : IAnnotationAppearanceHandler
{
    private const string NextKey = "/ParentTreeNextKey";

    public void DrawAppearance(XGraphics gfx, XRect rect)
    {
        var objects = document.Internals.GetAllObjects();
        Complete(objects.OfType<PdfSignature2>().Single());
        PutInReadingOrder(objects.OfType<PdfSignatureField>().Single());
    }

    private void Complete(PdfSignature2 signature)
    {
        signature.Elements.SetName("/SubFilter", "/ETSI.CAdES.detached");
        signature.Elements["/M"] = new PdfString(PdfInstant.Format(statement.At));
        signature.Elements["/Name"] = new PdfString(PlainAscii.Of(statement.Certificate.Subject));
    }

    /// <summary>A field that is not in the structure tree is passed over by those who hear the page.</summary>
    private void PutInReadingOrder(PdfSignatureField field)
    {
        field.Elements["/TU"] = new PdfString("Digital signature over this report");
        var page = document.Pages[room.Page];
        var root = document.Internals.Catalog.Elements.GetDictionary("/StructTreeRoot")!;
        var key = root.Elements.GetInteger(NextKey);
        root.Elements.SetInteger(NextKey, key + 1);
        ((PdfNumberTreeNode)root.Elements.GetDictionary("/ParentTree")!).AddNumber(key, room.Element);
        field.Elements.SetInteger("/StructParent", key);

        var reference = new PdfObjectReference(document);
        reference.Elements.SetName("/Type", "/OBJR");
        reference.Elements.SetReference("/Obj", field);
        reference.Elements.SetReference("/Pg", page);
        room.Element.Elements["/K"] = reference;
        room.Element.Elements.SetReference("/Pg", page);
    }
}
