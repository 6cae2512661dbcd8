using System.Globalization;
using PdfSharp.Drawing;
using PdfSharp.Pdf;
using PdfSharp.Pdf.Signatures;
using PdfSharp.UniversalAccessibility;
using ServiceRules.Reporting.Layout;
using ServiceRules.Reporting.Signing;
using ServiceRules.Reporting.Timestamping;

namespace ServiceRules.Reporting.Pdf;

/// <summary>Paints a laid-out document, attaches files and signs: the finished bytes, made once.</summary>
public static class PdfReportWriter
{
    private const string Product = "ServiceRules";

    public static byte[] Write(
        PlacedDocument placed,
        DocumentTitle title,
        IReadOnlyCollection<Attachment> attachments,
        IReportSigner signer,
        ITimestampAuthority? authority = null
    )
    {
        var statement = new SignatureStatement(signer.Certificate, title.IssuedAt, authority?.Host);
        var signatory = new CmsSignatory(signer, statement, authority);
        return Write(placed, title, attachments, statement, signatory);
    }

    /// <summary>The same file with an empty signature.</summary>
    internal static byte[] WriteUnsigned(
        PlacedDocument placed,
        DocumentTitle title,
        IReadOnlyCollection<Attachment> attachments,
        SignatureStatement statement
    ) => Write(placed, title, attachments, statement, new EmptySignatory(statement.Certificate.Subject));

    /// <summary>Pages alone: nothing attached, no signature and no place for one.</summary>
    internal static byte[] WritePlain(PlacedDocument placed, DocumentTitle title) =>
        Invariant(() =>
        {
            using var document = new PdfDocument();
            document.Options.CompressContentStreams = false;
            Describe(document, title);
            if (PaintPages(document, placed, title.Language) is [_, ..])
            {
                throw new InvalidOperationException(
                    "a document that is not signed has no place for a signature"
                );
            }

            using var output = new MemoryStream();
            document.Save(output, closeStream: false);
            return output.ToArray();
        });

    private static byte[] Write(
        PlacedDocument placed,
        DocumentTitle title,
        IReadOnlyCollection<Attachment> attachments,
        SignatureStatement statement,
        IDigitalSigner signer
    ) => Invariant(() => WriteInvariant(placed, title, attachments, statement, signer));

    private static byte[] Invariant(Func<byte[]> write)
    {
        // The library writes dates by the calendar and signs of the machine's culture.
        var before = CultureInfo.CurrentCulture;
        CultureInfo.CurrentCulture = CultureInfo.InvariantCulture;
        try
        {
            return write();
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }

    private static byte[] WriteInvariant(
        PlacedDocument placed,
        DocumentTitle title,
        IReadOnlyCollection<Attachment> attachments,
        SignatureStatement statement,
        IDigitalSigner signer
    )
    {
        using var document = new PdfDocument();
        // The library's compressed page streams lack their checksum, which a strict check reports.
        document.Options.CompressContentStreams = false;
        Describe(document, title);
        var room = PaintPages(document, placed, title.Language) is [var only]
            ? only
            : throw new InvalidOperationException(
                "a document that is signed has one place for its signature"
            );
        FileAttachments.Add(document, attachments, title.IssuedAt);
        PrepareSignature(document, room, statement, signer);

        using var output = new FirstWriteStream(() => SignatureField.Complete(document, room, statement));
        document.Save(output, closeStream: false);
        return output.ToArray();
    }

    private static void Describe(PdfDocument document, DocumentTitle title)
    {
        document.Info.Title = PlainAscii.Of(title.Title);
        document.Info.Subject = PlainAscii.Of(title.Subject);
        document.Info.Creator = DrawingVersion.Creator;
        document.Info.CreationDate = title.IssuedAt.UtcDateTime;
        document.Info.ModificationDate = title.IssuedAt.UtcDateTime;
        document.Language = title.Language;
        document.ViewerPreferences.DisplayDocTitle = true;
    }

    /// <summary>Paints all pages and returns where signatures go.</summary>
    private static List<SignatureRoom> PaintPages(
        PdfDocument document,
        PlacedDocument placed,
        string language
    )
    {
        var accessibility = UAManager.ForDocument(document);
        accessibility.SetDocumentLanguage(language);
        var rooms = new List<SignatureRoom>();
        for (var index = 0; index < placed.Pages.Length; index++)
        {
            var source = placed.Pages[index];
            var page = document.AddPage();
            page.Width = XUnit.FromPoint(source.Width);
            page.Height = XUnit.FromPoint(source.Height);
            // Fields and notes are come to in the order in which the page is read.
            page.Elements.SetName("/Tabs", "/S");
            using var canvas = XGraphics.FromPdfPage(page);
            var painter = new PagePainter(canvas, accessibility.StructureBuilder, source.Height);
            painter.Paint(source.Items);
            rooms.AddRange(
                painter.SignaturePlaces.Select(place => new SignatureRoom(index, place.Box, place.Element))
            );
        }
        return rooms;
    }

    private static void PrepareSignature(
        PdfDocument document,
        SignatureRoom room,
        SignatureStatement statement,
        IDigitalSigner signer
    )
    {
        var options = new DigitalSignatureOptions
        {
            AppName = Product,
            Reason = SignatureReason.Of(statement.TimestampAskedOf),
            PageIndex = room.Page,
            Rectangle = room.Box,
            AppearanceHandler = new EmptyAppearance(),
        };
        DigitalSignatureHandler.ForDocument(document, signer, options);
    }
}
