using ServiceRules.Application.Library;
using ServiceRules.Rules.Diagnostics;
using ServiceRules.TestKit;

namespace ServiceRules.Application.Tests.Library;

/// <summary>The rules that the repository ships load, and nothing is wrong with them.</summary>
public sealed class ShippedRulesTests
{
    private static readonly LoadedRules Loaded = RuleFolder.Load(ReferenceFiles.InRepository("rules"));

    [Fact]
    public void Load_ShippedFolder_IsSound()
    {
        Assert.Equal(
            [],
            Loaded
                .Diagnostics.Where(remark => remark.Level is DiagnosticLevel.Error)
                .Select(remark => remark.ToString())
        );
        Assert.NotNull(Loaded.Site);
    }

    /// <summary>The trade itself prints 0.012 mm beside 0.0005 in, and 1.5 mm beside 1/16 in: told, and left alone.</summary>
    [Fact]
    public void Load_ShippedFolder_TellsOnlyPrintsThatTheTradeHasApart() =>
        Assert.All(Loaded.Diagnostics, remark => Assert.Equal(DiagnosticCode.PrintsFarApart, remark.Code));
}
