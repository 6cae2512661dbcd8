using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Tests.Quantities;

public sealed class DualPrintTests
{
    // Rounding intervals worked by hand beside each row, in millimetres.
    [Theory]
    [InlineData("0.001 in", "0.025 mm", PrintAgreement.Agrees)] // 0.0127..0.0381 and 0.0245..0.0255; 1.6 %
    [InlineData("0.002 in", "0.050 mm", PrintAgreement.Agrees)] // 0.0381..0.0635 and 0.0495..0.0505; 1.6 %
    [InlineData("0.040 in", "1 mm", PrintAgreement.Agrees)] // 1.0033..1.0287 and 0.5..1.5; 1.6 %
    [InlineData("4.8 in", "122 mm", PrintAgreement.Agrees)] // 120.65..123.19 and 121.5..122.5; 0.07 %
    [InlineData("0.0005 in", "0.012 mm", PrintAgreement.AgreesWithNotice)] // 0.01143..0.01397, 0.0115..0.0125; 5.5 %
    [InlineData("1/16 in", "1.5 mm", PrintAgreement.AgreesWithNotice)] // 1.190625..1.984375 and 1.45..1.55; 5.5 %
    [InlineData("0.0005 in", "0.025 mm", PrintAgreement.Disagrees)] // 0.01143..0.01397 and 0.0245..0.0255
    [InlineData("0.025 mm", "0.0005 in", PrintAgreement.Disagrees)]
    [InlineData("2 in", "51 mm", PrintAgreement.Agrees)] // 38.1..63.5 and 50.5..51.5; 0.4 %
    [InlineData("1/8 in", "3 mm", PrintAgreement.AgreesWithNotice)] // 2.38125..3.96875 and 2.5..3.5; 5.5 %
    [InlineData("0.00 in", "0.0 mm", PrintAgreement.Agrees)]
    [InlineData("0.00 in", "0.1 mm", PrintAgreement.AgreesWithNotice)] // -0.127..0.127 and 0.05..0.15
    [InlineData("-0.001 in", "0.025 mm", PrintAgreement.Disagrees)]
    [InlineData("0.060 in", "2 mm", PrintAgreement.AgreesWithNotice)] // a slip seen in print; 1.5113..1.5367, 1.5..2.5
    [InlineData("0.100 in", "2.413 mm", PrintAgreement.Disagrees)] // 2.5273..2.5527 and 2.4125..2.4135
    public void Agreement_PrintedPair_FollowsTheRoundingIntervals(
        string governing,
        string alternate,
        PrintAgreement agreement
    ) => Assert.Equal(agreement, Pair(governing, alternate).Agreement);

    // 1.0 in spans 24.13..26.67 mm, and 5 % above 25.4 mm is 26.67 mm.
    [Theory]
    [InlineData("26.67 mm", PrintAgreement.Agrees)] // exactly 5 %
    [InlineData("26.7 mm", PrintAgreement.AgreesWithNotice)] // 26.65..26.75; 5.1 %
    [InlineData("26.72 mm", PrintAgreement.Disagrees)] // 26.715..26.725
    [InlineData("27 mm", PrintAgreement.AgreesWithNotice)] // 26.5..27.5; 6.3 %
    public void Agreement_AtTheEdges_FollowsTheClosedIntervals(string alternate, PrintAgreement agreement) =>
        Assert.Equal(agreement, Pair("1.0 in", alternate).Agreement);

    // 2 in spans 38.1..63.5 mm.
    [Theory]
    [InlineData("64 mm", PrintAgreement.AgreesWithNotice)] // begins exactly at 63.5
    [InlineData("63.6 mm", PrintAgreement.Disagrees)] // begins at 63.55
    public void Agreement_IntervalsThatOnlyTouch_Agree(string alternate, PrintAgreement agreement) =>
        Assert.Equal(agreement, Pair("2 in", alternate).Agreement);

    [Fact]
    public void Agreement_OneFigure_IsSingle() =>
        Assert.Equal(
            PrintAgreement.Single,
            DualPrint.Of(PrintedLength.Parse("0.001 in").OrThrow()).Agreement
        );

    [Fact]
    public void In_BothSystems_GivesEachPrintItsOwnLength()
    {
        DualPrint print = Pair("0.001 in", "0.025 mm");

        Assert.Equal(0.0254m, print.In(UnitSystem.Inch).Millimetres);
        Assert.Equal(0.025m, print.In(UnitSystem.Metric).Millimetres);
    }

    [Fact]
    public void In_SystemNotPrinted_GivesTheGoverningLength() =>
        Assert.Equal(
            0.0254m,
            DualPrint.Of(PrintedLength.Parse("1 thou").OrThrow()).In(UnitSystem.Metric).Millimetres
        );

    [Theory]
    [InlineData("0.001 in", "1 thou", "a figure in mm or µm")]
    [InlineData("0.025 mm", "25 µm", "a figure in in or thou")]
    public void Of_TwoFiguresInOneSystem_IsRefused(string governing, string alternate, string accepted)
    {
        Parsed<DualPrint> pair = DualPrint.Of(
            PrintedLength.Parse(governing).OrThrow(),
            PrintedLength.Parse(alternate).OrThrow()
        );

        Assert.False(pair.TryGet(out _, out ParseFailure? failure));
        Assert.Equal(alternate, failure.Found);
        Assert.Equal(accepted, failure.Accepted);
        Assert.Contains(governing, failure.Problem, StringComparison.Ordinal);
    }

    [Fact]
    public void Equals_SamePrints_AreOneValue()
    {
        Assert.Equal(Pair("0.001 in", "25 um"), Pair("0.001 in", "25 \u03BCm"));
        Assert.NotEqual(Pair("0.001 in", "0.025 mm"), Pair("0.001 in", "25 µm"));
    }

    private static DualPrint Pair(string governing, string alternate) =>
        DualPrint
            .Of(PrintedLength.Parse(governing).OrThrow(), PrintedLength.Parse(alternate).OrThrow())
            .OrThrow();
}
