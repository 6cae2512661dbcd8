using System.Xml.Linq;
using ServiceRules.TestKit;

namespace ServiceRules.Architecture.Tests.Documents;

public sealed class DocumentTests
{
    [Fact]
    public void Page_RelativeLink_LeadsToAFileAndAHeadingOfIt()
    {
        var links = MarkdownPage
            .All.SelectMany(page => page.Links.Select(link => (Page: page, Link: link)))
            .ToList();
        var broken = links
            .Where(each => !each.Link.Contains("://", StringComparison.Ordinal))
            .Where(each => !Resolves(each.Page, each.Link))
            .Select(each => $"{each.Page.Name}: {each.Link}");

        Assert.NotEmpty(links);
        Shortfalls.None(broken, "links that lead nowhere");
    }

    [Fact]
    public void Page_LinkToNowhere_IsSeenByThisTest()
    {
        var page = new MarkdownPage(
            ReferenceFiles.InRepository("README.md"),
            "# A page\n[x](no-such.md) [y](#a-page) [z](#b)\n"
        );

        Assert.Equal([false, true, false], page.Links.Select(link => Resolves(page, link)));
    }

    [Fact]
    public void Decision_EveryPage_SaysContextDecisionAndPrice()
    {
        var decisions = Directory.GetFiles(ReferenceFiles.InRepository("docs", "decisions"), "*.md");

        Assert.NotEmpty(decisions);
        Assert.All(
            decisions.Select(MarkdownPage.Read),
            page =>
                Assert.Equal(
                    ["Context", "Decision", "What we gave up"],
                    page.Headings.Where(heading => heading is "Context" or "Decision" or "What we gave up")
                )
        );
    }

    [Fact]
    public void ArchitecturePage_EveryPackageInUse_IsListedWithItsPinnedVersion()
    {
        var page = File.ReadAllText(ReferenceFiles.InRepository("docs", "architecture.md"));
        var pinned = XDocument
            .Load(ReferenceFiles.InRepository("Directory.Packages.props"))
            .Descendants("PackageVersion")
            .ToDictionary(
                package => package.Attribute("Include")!.Value,
                package => package.Attribute("Version")!.Value
            );
        var used = new[] { "src", "tests" }
            .SelectMany(side =>
                Directory.EnumerateFiles(
                    ReferenceFiles.InRepository(side),
                    "*.csproj",
                    SearchOption.AllDirectories
                )
            )
            .SelectMany(file => XDocument.Load(file).Descendants("PackageReference"))
            .Select(package => package.Attribute("Include")!.Value)
            .Distinct(StringComparer.Ordinal)
            .ToList();

        Assert.NotEmpty(used);
        Shortfalls.None(
            used.Where(package => !page.Split('\n').Any(row => Tells(row, package, pinned[package])))
                .Select(package => $"{package} {pinned[package]}"),
            "packages without a row in docs/architecture.md"
        );
    }

    private static bool Tells(string row, string package, string version) =>
        row.StartsWith("| ", StringComparison.Ordinal)
        && row.Contains(package, StringComparison.Ordinal)
        && row.Contains(version, StringComparison.Ordinal);

    private static bool Resolves(MarkdownPage page, string link)
    {
        var parts = link.Split('#', 2);
        var target =
            parts[0].Length == 0 ? page.Path : Path.Combine(Path.GetDirectoryName(page.Path)!, parts[0]);
        if (parts.Length == 1)
        {
            return File.Exists(target) || Directory.Exists(target);
        }

        var anchors =
            target == page.Path ? page.Anchors
            : File.Exists(target) ? MarkdownPage.Read(target).Anchors
            : [];
        return anchors.Contains(parts[1], StringComparer.Ordinal);
    }
}
