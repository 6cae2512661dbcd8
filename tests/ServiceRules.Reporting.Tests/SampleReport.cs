using ServiceRules.Reporting.Layout;
using ServiceRules.Reporting.Pdf;
using ServiceRules.Reporting.Signing;

namespace ServiceRules.Reporting.Tests;

/// <summary>Small signed documents for the tests, with a key made once.</summary>
internal static class SampleReport
{
    public static readonly DateTimeOffset IssuedAt = new(2026, 3, 2, 7, 45, 10, TimeSpan.FromHours(1));

    public static readonly TextStyle Body = new(Face.Text, 9, Ink.Black);

    private static readonly Lazy<SigningKey> Shared = new(MakeKey);

    public static SigningKey Key => Shared.Value;

    public static SignatureStatement Statement => new(Key.Certificate, IssuedAt);

    public static byte[] Bytes(params Attachment[] attachments) => Bytes(Block(), attachments);

    public static byte[] Bytes(Block content, params Attachment[] attachments) =>
        PdfReportWriter.Write(
            Pagination.LayOut(content, Design(), FontMeasure.Shipped),
            new DocumentTitle("Job <A & B>", "Service report", "en-GB", IssuedAt),
            attachments,
            Key
        );

    public static PageDesign Design() =>
        new(
            PageDesign.A4Width,
            PageDesign.A4Height,
            40,
            30,
            _ => new Paragraph("Service report", Body),
            page => new Paragraph($"page {page.Number} of {page.Count}", Body, Align.Right)
        );

    public static Block Block() =>
        new Stack(
            [
                Paragraph.Heading(1, "Unit 3 may go out", new TextStyle(Face.TextBold, 16, Ink.Black)),
                new Paragraph("Gap left 0.025 mm ≤ 0.050 mm ± 0.004 mm, µ and − too", Body),
                new Table(
                    [ColumnWidth.Fixed(80), ColumnWidth.Share()],
                    new TableRow([new Paragraph("station", Body), new Paragraph("reading", Body)]),
                    [new TableRow([new Paragraph("51 mm", Body), new Paragraph("in", Body)])],
                    new TableStyle(3, 2, new Stroke(Ink.Black, 0.4))
                ),
                Figure(),
                new SignaturePlace(VisibleSignature.Of(Statement)),
            ],
            6
        );

    public static Attachment Json(string name, string content) =>
        new(
            name,
            "the record as received",
            AttachmentRelation.Source,
            System.Text.Encoding.UTF8.GetBytes(content)
        );

    private static Picture Figure()
    {
        var drawing = new Drawing(FontMeasure.Shipped, 160, 30);
        foreach (var mark in Enum.GetValues<Mark>())
        {
            var box = new Box(4 + (24 * (int)mark), 5, 18, 18);
            MarkDrawing.Put(drawing, mark, box, Ink.Hex("0b6e4f"), Ink.White);
        }
        return drawing.AsFigure("the six marks in a row");
    }

    private static SigningKey MakeKey()
    {
        var certificate = SigningKeyMaking.SelfSigned("Alder Reach Parks Trust", IssuedAt);
        var outcome = SigningKey.Admit(certificate, [], IssuedAt, "test key");
        return ((SigningKeyOutcome.Usable)outcome).Key;
    }
}
