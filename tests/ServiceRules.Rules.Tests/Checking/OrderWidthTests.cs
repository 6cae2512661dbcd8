using ServiceRules.Domain.Records;
using ServiceRules.Rules.Checking;
using ServiceRules.Rules.Diagnostics;
using static ServiceRules.Rules.Tests.Evaluation.Sample;

namespace ServiceRules.Rules.Tests.Checking;

/// <summary>The sheet allows 0.005 in, printed beside it 0.13 mm.</summary>
public sealed class OrderWidthTests
{
    [Theory]
    [InlineData("2 mm", null)]
    [InlineData("0.131 mm", "sheet-a")]
    [InlineData("0.0051 in", "sheet-a")]
    public void Of_OrderWiderThanTheSheet_IsANoticeAtItsTolerance(string tolerance, string? sheet)
    {
        var remark = Assert.Single(Told(tolerance, sheet));

        Assert.Equal(DiagnosticLevel.Notice, remark.Level);
        Assert.Equal(("site/setting-orders/S-1.json", "/targets/0/tolerance"), (remark.File, remark.Pointer));
        Assert.Contains("`0.005 in (0.13 mm)` on sheet-a", remark.What, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("0.13 mm", null)]
    [InlineData("0.005 in", "sheet-a")]
    [InlineData("0.1 mm", null)]
    [InlineData("2 mm", "sheet-b")]
    [InlineData(null, null)]
    public void Of_OrderNoWider_TellsNothing(string? tolerance, string? sheet) =>
        Assert.Empty(Told(tolerance, sheet));

    private static IEnumerable<Diagnostic> Told(string? tolerance, string? sheet)
    {
        var small = SoundLibrary.Sheet with
        {
            Quantities =
            [
                .. SoundLibrary.Sheet.Quantities.Select(limit =>
                    limit.Quantity is MeasuredQuantity.HeightOfCut
                        ? limit with
                        {
                            ToleranceAboutTarget = D("0.005 in", "0.13 mm"),
                        }
                        : limit
                ),
            ],
        };
        var order = SoundLibrary.Order with
        {
            Targets =
            [
                new(
                    "golf-greens",
                    sheet,
                    MeasuredQuantity.HeightOfCut,
                    L("3.8 mm"),
                    tolerance is null ? null : L(tolerance)
                ),
            ],
        };
        return PackCheck
            .Of(SoundLibrary.With(order) with { Sheets = [new(small, "sheets/a.sheet.json", "")] })
            .Where(remark => remark.Code == DiagnosticCode.OrderWider);
    }
}
