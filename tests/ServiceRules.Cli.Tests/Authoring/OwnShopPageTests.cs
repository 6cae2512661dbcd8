using ServiceRules.TestKit;

namespace ServiceRules.Cli.Tests.Authoring;

/// <summary>From nothing to a report of one's own shop, typed as the page says by somebody who has the program and the page.</summary>
public sealed class OwnShopPageTests
{
    [SkippableFact]
    public void Page_FromNothingToTheFirstReport_GoesAsItSays()
    {
        _ = Tool.Require("sh");
        _ = Tool.Require("sed");
        _ = Tool.Require("curl");
        using var page = new TypedPage();

        Assert.True(page.Follow(File.ReadAllText(ReferenceFiles.InRepository("docs", "own-shop.md"))) > 10);
        Assert.DoesNotContain(
            "example shop",
            File.ReadAllText(page.At("told.txt")),
            StringComparison.Ordinal
        );
    }
}
