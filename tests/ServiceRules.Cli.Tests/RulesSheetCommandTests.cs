using ServiceRules.TestKit;

namespace ServiceRules.Cli.Tests;

public sealed class RulesSheetCommandTests : IDisposable
{
    private readonly Product _product = new();

    public void Dispose() => _product.Dispose();

    [Fact]
    public void Sheet_KindOfUnit_IsOnePageAndMayBeWrittenOver()
    {
        var pdf = _product.At("wall.pdf");

        var outcome = _product.Run("rules", "sheet", "reel-125-9-510", "-o", pdf);
        var again = _product.Run("rules", "sheet", "reel-125-9-510", "-o", pdf);

        Manners.Hold(outcome);
        Assert.True(outcome.ExitCode == 0, outcome.ToString());
        Assert.Contains("125 mm reel, 9 blades, 510 mm", outcome.StandardOutput, StringComparison.Ordinal);
        Assert.Contains("one page", outcome.StandardOutput, StringComparison.Ordinal);
        Assert.True(again.ExitCode == 0, again.ToString());
        Assert.True(File.ReadAllBytes(pdf).AsSpan().StartsWith("%PDF-"u8));
    }

    [Fact]
    public void Sheet_MistypedKindOfUnit_IsRefusedWithTheNearest()
    {
        var pdf = _product.At("wall.pdf");

        var outcome = _product.Run("rules", "sheet", "reel-125-9-501", "-o", pdf);

        Manners.Hold(outcome);
        Assert.Equal(2, outcome.ExitCode);
        Assert.Contains("perhaps `reel-125-9-510`", outcome.StandardError, StringComparison.Ordinal);
        Assert.False(File.Exists(pdf));
    }

    [Fact]
    public void Sheet_OtherSheetInItsPlace_IsNotWrittenOver()
    {
        var pdf = _product.At("wall.pdf");
        _ = _product.Run("rules", "sheet", "reel-180-7-660", "-o", pdf);
        var before = File.ReadAllBytes(pdf);

        var outcome = _product.Run("rules", "sheet", "reel-125-9-510", "-o", pdf);

        Assert.Equal(2, outcome.ExitCode);
        Assert.Contains(
            "Sheet for the wall: reel-125-9-510",
            outcome.StandardError,
            StringComparison.Ordinal
        );
        Assert.Equal(before, File.ReadAllBytes(pdf));
    }
}
