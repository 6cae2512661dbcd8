using ServiceRules.TestKit;

namespace ServiceRules.Cli.Tests.Authoring;

/// <summary>
/// The hour with rules of one's own, typed and edited as the page says, by somebody who has the program, a copy of the rules
/// and the page.
/// </summary>
public sealed class AuthoringPageTests
{
    [SkippableFact]
    public void Page_HourWithRulesOfOnesOwn_GoesAsItSays()
    {
        _ = Tool.Require("sh");
        _ = Tool.Require("sed");
        using var page = new TypedPage();

        Assert.True(page.Follow(Section()) > 10);
    }

    private static string Section()
    {
        var page = File.ReadAllText(ReferenceFiles.InRepository("docs", "rule-authoring.md"));
        var from = page.IndexOf("## An hour with rules of your own", StringComparison.Ordinal);
        return page[from..page.IndexOf("\n## A rule\n", from, StringComparison.Ordinal)];
    }
}
