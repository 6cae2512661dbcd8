using PdfSharp.Drawing;
using PdfSharp.Pdf;
using PdfSharp.Pdf.Signatures;
using PdfSharp.UniversalAccessibility;
using ServiceRules.Reporting.Layout;
using ServiceRules.Reporting.Signing;

namespace ServiceRules.Reporting.Pdf;

/// <summary>Paints a laid-out document, attaches files and signs: the finished bytes, made once.</summary>
public static class PdfReportWriter
{
    private const string Producer = "ServiceRules";

    public static byte[] Write(
        PlacedDocument placed,
        DocumentTitle title,
        IReadOnlyCollection<Attachment> attachments,
        IReportSigner signer
    )
    {
        using var document = new PdfDocument();
        // The library's compressed page streams lack their checksum, which a strict check reports.
        document.Options.CompressContentStreams = false;
        Describe(document, title);
        var room = PaintPages(document, placed, title.Language);
        FileAttachments.Add(document, attachments, title.IssuedAt);
        PrepareSignature(document, placed, room, title, signer);

        using var output = new MemoryStream();
        document.Save(output, closeStream: false);
        return output.ToArray();
    }

    private static void Describe(PdfDocument document, DocumentTitle title)
    {
        document.Info.Title = PlainAscii.Of(title.Title);
        document.Info.Subject = PlainAscii.Of(title.Subject);
        document.Info.Creator = Producer;
        document.Info.CreationDate = title.IssuedAt.UtcDateTime;
        document.Info.ModificationDate = title.IssuedAt.UtcDateTime;
        document.Language = title.Language;
        document.ViewerPreferences.DisplayDocTitle = true;
    }

    /// <summary>Paints all pages and returns where the signature goes: page index and box.</summary>
    private static (int Page, Box Box) PaintPages(
        PdfDocument document,
        PlacedDocument placed,
        string language
    )
    {
        var accessibility = UAManager.ForDocument(document);
        accessibility.SetDocumentLanguage(language);
        var rooms = new List<(int, Box)>();
        for (var index = 0; index < placed.Pages.Length; index++)
        {
            var source = placed.Pages[index];
            var page = document.AddPage();
            page.Width = XUnit.FromPoint(source.Width);
            page.Height = XUnit.FromPoint(source.Height);
            using var canvas = XGraphics.FromPdfPage(page);
            new PagePainter(canvas, accessibility.StructureBuilder, source.Height).Paint(source.Items);
            if (SignatureBoxIn(source.Items) is { } box)
            {
                rooms.Add((index, box));
            }
        }
        return rooms.Count == 1
            ? rooms[0]
            : throw new InvalidOperationException(
                $"a document has one place for its signature, this one has {rooms.Count}"
            );
    }

    private static Box? SignatureBoxIn(IEnumerable<Placed> items)
    {
        foreach (var item in items)
        {
            var box = item switch
            {
                Placed.SignatureBox place => place.Box,
                Placed.Group group => SignatureBoxIn(group.Children),
                _ => null,
            };
            if (box is not null)
            {
                return box;
            }
        }
        return null;
    }

    private static void PrepareSignature(
        PdfDocument document,
        PlacedDocument placed,
        (int Page, Box Box) room,
        DocumentTitle title,
        IReportSigner signer
    )
    {
        var (index, box) = room;
        var pageHeight = placed.Pages[index].Height;
        var options = new DigitalSignatureOptions
        {
            AppName = Producer,
            Reason = "Issued service report",
            PageIndex = index,
            // Annotations count from the bottom of the page.
            Rectangle = new XRect(box.X, pageHeight - box.Bottom, box.Width, box.Height),
            AppearanceHandler = new SignatureAppearance(document, signer.Certificate.Subject, title.IssuedAt),
        };
        DigitalSignatureHandler.ForDocument(document, new CmsSignatory(signer), options);
    }
}
