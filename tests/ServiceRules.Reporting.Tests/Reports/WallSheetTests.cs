using System.Text;
using FsCheck;
using FsCheck.Fluent;
using FsCheck.Xunit;
using ServiceRules.Application.Library;
using ServiceRules.Domain.Quantities;
using ServiceRules.Reporting.Layout;
using ServiceRules.Reporting.Pdf;
using ServiceRules.Reporting.Reports;
using ServiceRules.Reporting.Reports.Wall;
using ServiceRules.Reporting.Reports.Words;
using ServiceRules.Rules.Model;
using ServiceRules.TestKit;

namespace ServiceRules.Reporting.Tests.Reports;

/// <summary>One kind of unit on one page: nothing of the sheet is left out, and no figure is looser than the sheet.</summary>
public sealed class WallSheetTests
{
    private static readonly LoadedRules Shipped = RuleFolder.Load(ReferenceFiles.InRepository("rules"));

    public static TheoryData<string> Sheets => [.. Shipped.Book.Sheets.Select(sheet => sheet.Id.Text)];

    [Theory]
    [MemberData(nameof(Sheets))]
    public void LayOut_ShippedSheet_StandsOnOnePageWithEveryPrintStepAndCaution(string id)
    {
        var sheet = Shipped.Book.Sheet(id)!;

        var placed = LayOut(sheet);

        Assert.Single(placed.Pages);
        var words = Words(placed);
        var prints = sheet.Quantities.SelectMany(Prints).ToList();
        Assert.NotEmpty(prints);
        Assert.All(prints.SelectMany(Figures), figure => AssertTells(words, figure));
        Assert.All(sheet.Procedure, step => AssertTells(words, step));
        Assert.All(
            sheet.Cautions.Where(caution =>
                !caution.EndsWith("before this sheet.", StringComparison.Ordinal)
            ),
            caution => AssertTells(words, caution)
        );
        AssertTells(
            words,
            "Local codes, the unit's own manual and licensed practice come before this sheet."
        );
        Assert.All(
            sheet.Quantities.Select(limit => limit.Basis.Source).OfType<string>(),
            source => AssertTells(words, source)
        );
    }

    [Fact]
    public void LayOut_MovingBedknife_TellsWhatAClearanceStepVoids() =>
        AssertTells(
            Words(LayOut(Shipped.Book.Sheet("reel-125-9-510")!)),
            "height of cut after more than 2 steps (each may shift it by 0.0004 in, 0.010 mm)"
        );

    [Fact]
    public void LayOut_CylinderTerms_SaysTheOtherNamesOfTheParts()
    {
        var terms = ReportTerms.Default with { Trade = TradeWords.Cylinder };

        var words = Words(LayOut(Shipped.Book.Sheet("reel-125-9-510")!, terms));

        AssertTells(words, "125 mm cylinder, 9 blades");
        AssertTells(words, "Bottom blade lip");
    }

    [Fact]
    public void LayOut_MoreThanAPageHolds_TakesASecondPageAndLosesNothing()
    {
        var sheet = Shipped.Book.Sheet("reel-125-9-510")!;
        var longer = sheet with
        {
            Procedure = [.. Enumerable.Range(1, 60).Select(step => $"Step {step} of many.")],
        };

        var placed = LayOut(longer);

        Assert.Equal(2, placed.Pages.Length);
        AssertTells(Words(placed), "Step 60 of many.");
    }

    [Fact]
    public void Write_ShippedSheet_IsAFileOfOursWithoutASignature()
    {
        var sheet = Shipped.Book.Sheet("reel-200-6-760")!;

        var (pdf, pages) = WallSheet.Write(
            sheet,
            "Alder Reach Parks Trust",
            SheetDigest.Of(sheet),
            ReportTerms.Default,
            SampleReport.IssuedAt
        );

        Assert.Equal(1, pages);
        Assert.DoesNotContain("/Sig", Encoding.Latin1.GetString(pdf), StringComparison.Ordinal);
        Assert.True(EarlierReport.Is(pdf, WallSheet.TitleOf(sheet)));
    }

    /// <summary>
    /// Reckoned by hand: 0.025 / 25.4 = 0.000984, 0.125 / 25.4 = 0.004921, 190 / 25.4 = 7.480, 1.5 / 25.4 = 0.05906, 0.0005 in =
    /// 0.0127 mm.
    /// </summary>
    [Theory]
    [InlineData("0.025 mm", "AtLeast", "0.00099")]
    [InlineData("0.125 mm", "AtMost", "0.00492")]
    [InlineData("190 mm", "AtLeast", "7.49")]
    [InlineData("1.5 mm", "Nominal", "0.059")]
    [InlineData("0.0005 in", "AtLeast", "0.013")]
    [InlineData("0.0005 in", "AtMost", "0.012")]
    [InlineData("25 µm", "AtMost", "0.00098")]
    public void Of_OneFigureOnly_IsCarriedToTheSafeSide(string print, string bound, string expected)
    {
        var governing = Read(print);
        var other = governing.System == UnitSystem.Inch ? UnitSystem.Metric : UnitSystem.Inch;

        var figure = CarriedFigure.Of(DualPrint.Of(governing), other, Enum.Parse<FigureBound>(bound));

        Assert.Equal(new CarriedFigure(expected, false), figure);
    }

    [Theory]
    [InlineData("2 thou", UnitSystem.Inch, "0.002")]
    [InlineData("25 µm", UnitSystem.Metric, "0.025")]
    [InlineData("1 1/16 in", UnitSystem.Inch, "1 1/16")]
    public void Of_FigureOfTheColumnsOwnSystem_IsThePrintItself(
        string print,
        UnitSystem system,
        string expected
    ) =>
        Assert.Equal(
            new CarriedFigure(expected, true),
            CarriedFigure.Of(DualPrint.Of(Read(print)), system, FigureBound.AtLeast)
        );

    [Property]
    public Property Of_AnyFigure_IsNeverLooserThanThePrintAndNearIt() =>
        Prop.ForAll(
            (
                from digits in Gen.Choose(1, 9_999)
                from decimals in Gen.Choose(1, 4)
                from inch in Gen.Elements(true, false)
                select Read(
                    $"{(digits / (decimal)Math.Pow(10, decimals)).ToString($"F{decimals}", System.Globalization.CultureInfo.InvariantCulture)} {(inch ? "in" : "mm")}"
                )
            )
                .Where(print => print.Value.Millimetres is > 0.01m and < 90_000m)
                .ToArbitrary(),
            print =>
            {
                var other = print.System == UnitSystem.Inch ? UnitSystem.Metric : UnitSystem.Inch;
                var unit = other == UnitSystem.Inch ? 25.4m : 1m;
                decimal Carried(FigureBound bound) =>
                    unit
                    * decimal.Parse(
                        CarriedFigure.Of(DualPrint.Of(print), other, bound).Text,
                        System.Globalization.CultureInfo.InvariantCulture
                    );
                var (least, most) = (Carried(FigureBound.AtLeast), Carried(FigureBound.AtMost));
                var exact = print.Value.Millimetres;
                return most <= exact
                    && exact <= least
                    && least - most <= Math.Max(2 * print.RoundingHalfWidth.Millimetres, unit / 100_000m);
            }
        );

    private static PlacedDocument LayOut(LimitSheet sheet, ReportTerms? terms = null) =>
        WallSheet.LayOut(
            sheet,
            "Alder Reach Parks Trust",
            SheetDigest.Of(sheet),
            terms ?? ReportTerms.Default,
            SampleReport.IssuedAt,
            FontMeasure.Shipped
        );

    private static IEnumerable<DualPrint> Prints(QuantityLimit limit) =>
        new[]
        {
            limit.Lower,
            limit.Upper,
            limit.Target,
            limit.ToleranceAboutTarget,
            limit.SideToSide,
            limit.AcrossUnits,
            limit.AdjacentEnds,
            limit.Parallelism,
            limit.Taper,
            limit.Barrel,
            limit.Twist,
            limit.WornBelow,
        }
            .Concat(limit.Schools.SelectMany(school => new[] { school.Passes, school.Stops }))
            .OfType<DualPrint>();

    private static IEnumerable<string> Figures(DualPrint print) =>
        new[] { print.Governing, print.Alternate }
            .OfType<PrintedLength>()
            .Select(figure =>
                figure
                    .ToString()
                    .Replace(" mm", "", StringComparison.Ordinal)
                    .Replace(" in", "", StringComparison.Ordinal)
            );

    private static string Words(PlacedDocument document) =>
        Layout.Printable.Of(string.Concat(document.Texts().Select(text => text.Content)));

    private static void AssertTells(string printed, string words) =>
        Assert.Contains(
            Layout.Printable.Of(VisibleText.Of(words, Face.Text, FontMeasure.Shipped)),
            printed,
            StringComparison.Ordinal
        );

    private static PrintedLength Read(string text)
    {
        Assert.True(PrintedLength.Parse(text).TryGet(out var print, out _));
        return print!;
    }
}
