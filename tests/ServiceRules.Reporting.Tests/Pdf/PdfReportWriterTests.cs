using ServiceRules.Reporting.Layout;
using ServiceRules.Reporting.Pdf;

namespace ServiceRules.Reporting.Tests.Pdf;

public class PdfReportWriterTests
{
    [Fact]
    public void Write_WithoutASignaturePlace_IsRefused()
    {
        var content = new Paragraph("no place", SampleReport.Body);

        var problem = Assert.Throws<InvalidOperationException>(() => SampleReport.Bytes(content));

        Assert.Contains("one place for its signature", problem.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("")]
    [InlineData("a/b.json")]
    [InlineData("zwei ä.json")]
    [InlineData("program.exe")]
    [InlineData("no-ending")]
    public void Write_AttachmentNameThatReadersDisagreeOn_IsRefused(string name) =>
        Assert.Throws<ArgumentException>(() =>
            SampleReport.Bytes(new Attachment(name, "x", AttachmentRelation.Data, new byte[] { 1 }))
        );

    [Fact]
    public void Write_InParallel_EachReportKeepsItsOwnText()
    {
        Parallel.For(
            0,
            8,
            number =>
            {
                var content = new Stack([
                    new Paragraph($"report number {number}", SampleReport.Body),
                    new SignaturePlace(new Paragraph("signed", SampleReport.Body)),
                ]);
                Assert.NotEmpty(SampleReport.Bytes(content));
            }
        );
    }
}
