using System.IO.Compression;
using System.Text;
using ServiceRules.Application.Importing;
using ServiceRules.Formats.Imports;
using ServiceRules.Host.Tables;

namespace ServiceRules.Host.Tests.Tables;

public sealed class WorkbookTableTests
{
    private const string Headings =
        "<row r=\"1\"><c r=\"A1\" t=\"s\"><v>0</v></c><c r=\"B1\" t=\"inlineStr\"><is><t>Value</t></is></c></row>";

    [Fact]
    public void Read_EveryKindOfCell_IsWhatItIs()
    {
        var table = Read(
            WrittenWorkbook.Of(
                Headings
                    + Row(2, "<c r=\"B2\"><v>3.8</v></c>")
                    + Row(3, "<c r=\"B3\" s=\"1\"><v>46125</v></c>")
                    + Row(4, "<c r=\"B4\" s=\"2\"><v>3.7999999999999998</v></c>")
                    + Row(5, "<c r=\"B5\" s=\"3\"><v>0.5</v></c>")
                    + Row(6, "<c r=\"B6\"><f>B2*2</f><v>7.6</v></c>")
                    + Row(7, "<c r=\"B7\" t=\"e\"><v>#N/A</v></c>")
                    + Row(8, "<c r=\"B8\" t=\"b\"><v>1</v></c>")
                    + Row(9, "<c r=\"B9\" t=\"str\"><v> said </v></c>")
                    + Row(10, "<c r=\"B10\"><v>1E-05</v></c>")
            )
        );

        Assert.Equal<string>(["Job", "Value"], table.Headings);
        Assert.All(table.Rows, row => Assert.Equal("J-1", row.Cells[0].Text));
        Assert.Equal(
            [
                ("3.8", CellKind.Number),
                ("46125", CellKind.Moment),
                ("3.8", CellKind.Number),
                ("0.5", CellKind.Moment),
                ("=B2*2", CellKind.Formula),
                ("#N/A", CellKind.Fault),
                ("true", CellKind.Text),
                ("said", CellKind.Text),
                ("0.00001", CellKind.Number),
            ],
            table.Rows.Select(row => (row.Cells[1].Text, row.Cells[1].Kind))
        );
    }

    [Fact]
    public void Read_RowsAndCellsLeftOut_AreEmpty()
    {
        var table = Read(
            WrittenWorkbook.Of(Headings + "<row r=\"4\"><c r=\"B4\"><v>1</v></c></row><row r=\"6\"></row>")
        );

        Assert.Equal([(4, "", "1")], CsvTableTests.Rows(table));
    }

    [Fact]
    public void Read_MergedCells_AreMarkedAllOverThem()
    {
        var table = Read(
            WrittenWorkbook.Of(
                Headings
                    + Row(2, "<c r=\"B2\"><v>3.8</v></c>")
                    + Row(3, "")
                    + Row(4, "<c r=\"B4\"><v>1</v></c>"),
                "<mergeCells count=\"1\"><mergeCell ref=\"B2:B3\"/></mergeCells>"
            )
        );

        Assert.Equal(
            [CellKind.Merged, CellKind.Merged, CellKind.Number],
            table.Rows.Select(row => row.Cells[1].Kind)
        );
    }

    [Fact]
    public void Read_MergedHeadings_RefuseTheTable() =>
        Assert.StartsWith(
            "headings are merged",
            Refused(
                WrittenWorkbook.Of(
                    Headings + Row(2, ""),
                    "<mergeCells count=\"1\"><mergeCell ref=\"A1:B1\"/></mergeCells>"
                )
            ).What,
            StringComparison.Ordinal
        );

    [Fact]
    public void Read_DaysCountedFrom1904_AreSaidToBe()
    {
        Assert.True(
            Read(WrittenWorkbook.Of(Headings + Row(2, ""), "", "<workbookPr date1904=\"1\"/>")).CountsFrom1904
        );
        Assert.False(Read(WrittenWorkbook.Of(Headings + Row(2, ""))).CountsFrom1904);
    }

    [Fact]
    public void Read_SeveralSheets_NeedAName()
    {
        var bytes = WrittenWorkbook.Of(Headings + Row(2, ""), "", "", "Heights", "Notes");

        Assert.Contains("`Heights`, `Notes`", Refused(bytes).Accepted, StringComparison.Ordinal);
        Assert.Contains("no sheet `Other`", Refused(bytes, "Other").What, StringComparison.Ordinal);
        Assert.Single(Read(bytes, "Notes").Rows);
    }

    [Fact]
    public void Read_ValueInAColumnWithoutHeading_ReachesTheTable()
    {
        var table = Read(WrittenWorkbook.Of(Headings + Row(2, "<c r=\"D2\"><v>9</v></c>")));

        Assert.Equal<string>(["Job", "Value", "", ""], table.Headings);
        Assert.Equal("9", table.Rows.Single().Cells[3].Text);
    }

    [Theory]
    [InlineData("<row r=\"2\"><c r=\"A2\" t=\"s\"><v>7</v></c></row>")]
    [InlineData("<row r=\"2\"><c r=\"!\"><v>7</v></c></row>")]
    [InlineData("<row r=\"2\"><c r=\"A2\"><v>7</v></c><c r=\"A2\"><v>8</v></c></row>")]
    [InlineData("<row r=\"2\"><c r=\"A2\">")]
    public void Read_DamagedSheet_IsRefused(string row) =>
        Assert.StartsWith(
            "this is no workbook",
            Refused(WrittenWorkbook.Of(Headings + row)).What,
            StringComparison.Ordinal
        );

    [Fact]
    public void Read_DeclaredEntities_AreNeverExpanded()
    {
        var sheet = Encoding.UTF8.GetString([
            .. "<!DOCTYPE x [<!ENTITY a SYSTEM \"file:///etc/hostname\">]>"u8,
        ]);
        using var stream = new MemoryStream();
        stream.Write(WrittenWorkbook.Of(Headings + Row(2, "")));
        using (var archive = new ZipArchive(stream, ZipArchiveMode.Update, leaveOpen: true))
        {
            archive.GetEntry("xl/sheet.xml")!.Delete();
            using var part = archive.CreateEntry("xl/sheet.xml").Open();
            part.Write(
                Encoding.UTF8.GetBytes(
                    sheet
                        + "<worksheet xmlns=\"http://schemas.openxmlformats.org/spreadsheetml/2006/main\"><sheetData><row><c t=\"str\"><v>&a;</v></c></row></sheetData></worksheet>"
                )
            );
        }

        Assert.StartsWith("this is no workbook", Refused(stream.ToArray()).What, StringComparison.Ordinal);
    }

    [Fact]
    public void Read_ArchiveThatUnpacksToMoreThanAny_IsRefusedBeforeItDoes()
    {
        using var stream = new MemoryStream();
        stream.Write(WrittenWorkbook.Of(Headings + Row(2, "")));
        using (var archive = new ZipArchive(stream, ZipArchiveMode.Update, leaveOpen: true))
        {
            using var part = archive.CreateEntry("xl/more.xml", CompressionLevel.Fastest).Open();
            var block = new byte[1024 * 1024];
            for (var count = 0L; count <= TableLimits.UnpackedBytes; count += block.Length)
            {
                part.Write(block);
            }
        }

        Assert.StartsWith("the workbook unpacks", Refused(stream.ToArray()).What, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("dd/mm/yyyy", true)]
    [InlineData("[$-809]d mmm", true)]
    [InlineData("[h]:mm:ss", true)]
    [InlineData("0.00", false)]
    [InlineData("0.00\" days\"", false)]
    [InlineData("[Red]0.0", false)]
    [InlineData("0\\d", false)]
    [InlineData("General", false)]
    [InlineData("\"unended", false)]
    [InlineData("[unended", false)]
    public void ShowsMoment_Format_BySignsOutsideOfTexts(string format, bool expected) =>
        Assert.Equal(expected, SheetStyles.ShowsMoment(format));

    private static string Row(int number, string cells) =>
        $"<row r=\"{number}\"><c r=\"A{number}\" t=\"s\"><v>1</v></c>{cells}</row>";

    private static TableOutcome Outcome(byte[] bytes, string? sheet) =>
        TableFile.Read(bytes, TableLayout.Usual with { Sheet = sheet });

    private static Table Read(byte[] bytes, string? sheet = null)
    {
        var outcome = Outcome(bytes, sheet);
        Assert.True(outcome is TableOutcome.Read, outcome.ToString());
        return ((TableOutcome.Read)outcome).Table;
    }

    private static RowProblem Refused(byte[] bytes, string? sheet = null) =>
        Assert.IsType<TableOutcome.Refused>(Outcome(bytes, sheet)).Problems[0];
}
