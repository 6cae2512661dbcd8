using System.Collections.Immutable;
using FsCheck;
using FsCheck.Fluent;
using FsCheck.Xunit;
using ServiceRules.Reporting.Layout;

namespace ServiceRules.Reporting.Tests.Layout;

public class PaginationTests
{
    private static readonly PlainMeasure Measure = new();
    private static readonly TextStyle Style = new(Face.Text, 10, Ink.Black, 1.2);
    private static readonly PageDesign Small = new(200, 120, 0, 0, null, null);

    private static string Page(PlacedDocument document, int index) =>
        string.Join(
            '|',
            new PlacedDocument([document.Pages[index]]).Texts().Select(text => text.Content.TrimEnd())
        );

    private static Paragraph Lines(int count, string prefix = "l") =>
        new(string.Join('\n', Enumerable.Range(1, count).Select(line => $"{prefix}{line}")), Style);

    [Fact]
    public void LayOut_MoreLinesThanAPage_ContinuesOnTheNext()
    {
        var document = Pagination.LayOut(Lines(14), Small, Measure);

        Assert.Equal(2, document.Pages.Length);
        Assert.Equal("l1|l2|l3|l4|l5|l6|l7|l8|l9|l10", Page(document, 0));
        Assert.Equal("l11|l12|l13|l14", Page(document, 1));
    }

    [Fact]
    public void LayOut_OneLineTooMany_TakesASecondLineAlong()
    {
        var document = Pagination.LayOut(Lines(11), Small, Measure);

        Assert.Equal("l10|l11", Page(document, 1));
    }

    [Fact]
    public void LayOut_HeadingAtTheFoot_MovesWithItsText()
    {
        var content = new Stack([Lines(9), Paragraph.Heading(2, "Heading", Style), Lines(3, "m")]);

        var document = Pagination.LayOut(content, Small, Measure);

        Assert.Equal("Heading|m1|m2|m3", Page(document, 1));
    }

    [Fact]
    public void LayOut_KeptTogether_MovesWholeWhenAPageCanHoldIt()
    {
        var document = Pagination.LayOut(new Stack([Lines(6), new Together(Lines(8, "m"))]), Small, Measure);

        Assert.Equal("l1|l2|l3|l4|l5|l6", Page(document, 0));
        Assert.Equal("m1|m2|m3|m4|m5|m6|m7|m8", Page(document, 1));
    }

    [Fact]
    public void LayOut_KeptTogetherTallerThanAPage_IsCut()
    {
        var document = Pagination.LayOut(new Stack([Lines(4), new Together(Lines(15, "m"))]), Small, Measure);

        Assert.Equal("l1|l2|l3|l4|m1|m2|m3|m4|m5|m6", Page(document, 0));
        Assert.Equal("m7|m8|m9|m10|m11|m12|m13|m14|m15", Page(document, 1));
    }

    [Fact]
    public void LayOut_PageBreaks_StartOnePageEachAndNoneAtTheTop()
    {
        var content = new Stack([new PageBreak(), Lines(1), new PageBreak(), Lines(1, "m")]);

        var document = Pagination.LayOut(content, Small, Measure);

        Assert.Equal(["l1", "m1"], Enumerable.Range(0, 2).Select(index => Page(document, index)));
    }

    [Fact]
    public void LayOut_TableOverPages_RepeatsItsHeadAsDecoration()
    {
        var rows = Enumerable.Range(1, 14).Select(row => new TableRow([new Paragraph($"r{row}", Style)]));
        var table = new Table(
            [ColumnWidth.Share()],
            new TableRow([new Paragraph("head", Style)]),
            [.. rows],
            new TableStyle(0, 0)
        );

        var document = Pagination.LayOut(table, Small, Measure);

        Assert.Equal("head|r1|r2|r3|r4|r5|r6|r7|r8|r9", Page(document, 0));
        Assert.Equal("r10|r11|r12|r13|r14", Page(document, 1));
        Assert.Contains("head", AllText(document.Pages[1].Items), StringComparison.Ordinal);
    }

    [Fact]
    public void LayOut_TableCellTallerThanAPage_IsCutAndLosesNothing()
    {
        var row = new TableRow([Lines(23, "a"), Lines(2, "b")]);
        var table = new Table([ColumnWidth.Share(), ColumnWidth.Share()], null, [row], new TableStyle(0, 0));

        var document = Pagination.LayOut(table, Small, Measure);

        Assert.Equal(3, document.Pages.Length);
        Assert.Equal("a21|a22|a23", Page(document, 2));
    }

    [Fact]
    public void LayOut_RowOfColumns_PlacesThemSideBySide()
    {
        var row = new Row(
            [
                new Column(ColumnWidth.Fixed(60), Lines(2)),
                new Column(ColumnWidth.Share(), Lines(1, "m"), Centred: true),
            ],
            gap: 10
        );

        var texts = Pagination.LayOut(row, Small, Measure).Texts().ToList();

        Assert.Equal([(0, 8.5), (0, 20.5), (70, 14.5)], texts.Select(text => (text.X, text.Baseline)));
    }

    [Fact]
    public void LayOut_HeadAndFoot_CountPagesAndKeepTheirRoom()
    {
        var design = Small with
        {
            Header = _ => new Paragraph("head", Style),
            Footer = page => new Paragraph($"page {page.Number} of {page.Count}", Style),
        };

        var document = Pagination.LayOut(Lines(14), design, Measure);

        Assert.Equal("l1|l2|l3|l4|l5|l6", Page(document, 0));
        Assert.Contains("page 2 of 3", AllText(document.Pages[1].Items), StringComparison.Ordinal);
    }

    [Fact]
    public void LayOut_PictureWiderThanThePage_IsMadeSmaller()
    {
        var drawing = new Drawing(Measure, 400, 100);
        drawing.Text(0, 50, "label", Style);

        var text = Pagination.LayOut(drawing.AsFigure("a label"), Small, Measure).Texts().Single();

        Assert.Equal(5, text.Style.Size, 6);
        Assert.Equal(25, text.Baseline, 6);
    }

    [Fact]
    public void Text_WiderThanItsRoom_IsSetSmallerAndKeepsEveryCharacter()
    {
        var drawing = new Drawing(Measure, 100, 20);
        drawing.Text(50, 10, "a label of thirty characters..", Style, Align.Centre, widest: 60);

        var text = Pagination.LayOut(drawing.AsFigure("x"), Small, Measure).Texts().Single();

        Assert.Equal("a label of thirty characters..", text.Content);
        Assert.Equal((60.0, 20.0), (Math.Round(text.Width, 6), Math.Round(text.X, 6)));
    }

    [Property(MaxTest = 200)]
    public Property LayOut_AnyTree_PlacesEveryCharacterInsideItsPage() =>
        Prop.ForAll(
            Trees.Any.ToArbitrary(),
            tree =>
            {
                var document = Pagination.LayOut(tree.Block, Small, Measure);
                var placed = document.Texts().ToList();
                Assert.Equal(Sorted(tree.Text), Sorted(string.Concat(placed.Select(text => text.Content))));
                Assert.All(placed, text => Assert.InRange(text.Baseline, 0, Small.Height));
            }
        );

    [Fact]
    public void LayOut_Twice_GivesTheSamePages()
    {
        var content = new Stack([Lines(9), Paragraph.Heading(2, "Heading", Style), Lines(30, "m")]);

        Assert.Equal(
            Pagination.LayOut(content, Small, Measure).Texts(),
            Pagination.LayOut(content, Small, Measure).Texts()
        );
    }

    private static string Sorted(string text) =>
        string.Concat(Printable.Of(VisibleText.Of(text, Face.Text, Measure)).Order());

    private static string AllText(ImmutableArray<Placed> items) =>
        string.Join(
            '|',
            items.Select(item =>
                item switch
                {
                    Placed.Text text => text.Content,
                    Placed.Group group => AllText(group.Children),
                    _ => "",
                }
            )
        );
}
