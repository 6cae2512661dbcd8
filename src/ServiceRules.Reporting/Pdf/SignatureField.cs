using PdfSharp.Pdf;
using PdfSharp.Pdf.AcroForms;
using PdfSharp.Pdf.Signatures;
using PdfSharp.Pdf.Structure;
using ServiceRules.Reporting.Signing;

namespace ServiceRules.Reporting.Pdf;

/// <summary>
/// Completes the signature dictionary, whose entries the library fixes otherwise, and puts its field into the reading
/// order.
/// </summary>
internal static class SignatureField
{
    private const string NextKey = "/ParentTreeNextKey";

    public static void Complete(PdfDocument document, SignatureRoom room, SignatureStatement statement)
    {
        var objects = document.Internals.GetAllObjects();
        Complete(objects.OfType<PdfSignature2>().Single(), statement);
        PutInReadingOrder(objects.OfType<PdfSignatureField>().Single(), document, room);
    }

    private static void Complete(PdfSignature2 signature, SignatureStatement statement)
    {
        signature.Elements.SetName("/SubFilter", "/ETSI.CAdES.detached");
        signature.Elements["/M"] = new PdfString(PdfInstant.Format(statement.At));
        signature.Elements["/Name"] = new PdfString(PlainAscii.Of(statement.Certificate.Subject));
    }

    /// <summary>A field that is not in the structure tree is passed over by those who hear the page.</summary>
    private static void PutInReadingOrder(PdfSignatureField field, PdfDocument document, SignatureRoom room)
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
