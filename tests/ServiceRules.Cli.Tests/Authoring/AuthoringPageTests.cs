using System.Text.RegularExpressions;
using ServiceRules.TestKit;

namespace ServiceRules.Cli.Tests.Authoring;

/// <summary>
/// The hour with rules of one's own, typed and edited as the page says, by somebody who has the program, a copy of the rules
/// and the page. What the page says must be said is said, in that order.
/// </summary>
public sealed partial class AuthoringPageTests : IDisposable
{
    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("servicerules-hour-");

    public void Dispose()
    {
        _folder.Delete(recursive: true);
        Directory.Delete(_folder.FullName + "-programs", recursive: true);
    }

    [SkippableFact]
    public void Page_HourWithRulesOfOnesOwn_GoesAsItSays()
    {
        _ = Tool.Require("sh");
        _ = Tool.Require("sed");
        foreach (var file in Directory.GetFiles(RulesCopy.Shipped, "*.json", SearchOption.AllDirectories))
        {
            var copy = Path.Combine(_folder.FullName, "rules", Path.GetRelativePath(RulesCopy.Shipped, file));
            Directory.CreateDirectory(Path.GetDirectoryName(copy)!);
            File.Copy(file, copy);
        }

        var session = new ShellSession(_folder.FullName);
        var blocks = Blocks().Matches(Section());
        Assert.True(blocks.Count > 10);
        foreach (Match block in blocks)
        {
            var (kind, lines) = (block.Groups[1].Value, block.Groups[2].Value.TrimEnd('\n').Split('\n'));
            if (kind == "console")
            {
                Type(session, lines);
            }
            else
            {
                Edit(kind["diff ".Length..], lines);
            }
        }
    }

    private static string Section()
    {
        var page = File.ReadAllText(ReferenceFiles.InRepository("docs", "rule-authoring.md"));
        var from = page.IndexOf("## An hour with rules of your own", StringComparison.Ordinal);
        return page[from..page.IndexOf("\n## A rule\n", from, StringComparison.Ordinal)];
    }

    private static void Type(ShellSession session, string[] lines)
    {
        for (var at = 0; at < lines.Length; )
        {
            Assert.StartsWith("$ ", lines[at], StringComparison.Ordinal);
            var command = lines[at++][2..];
            var said = session.Type(command);
            var rest = said.StandardOutput + said.StandardError;
            var code = 0;
            for (; at < lines.Length && !lines[at].StartsWith("$ ", StringComparison.Ordinal); at++)
            {
                if (Code().Match(lines[at]) is { Success: true } stated)
                {
                    code = stated.Groups[1].Value[0] - '0';
                    continue;
                }

                var shown = Regex.Match(
                    rest,
                    $"^{Regex.Escape(lines[at]).Replace(@"\.\.\.", ".*", StringComparison.Ordinal)}$",
                    RegexOptions.Multiline
                );
                Assert.True(shown.Success, $"`{command}` does not say `{lines[at]}`, but:\n{said}");
                rest = rest[(shown.Index + shown.Length)..];
            }

            Assert.True(code == said.ExitCode, $"`{command}`: {said}");
        }
    }

    private void Edit(string file, string[] lines)
    {
        var path = Path.Combine(_folder.FullName, file);
        var text = File.ReadAllText(path);
        string Side(char mark) =>
            string.Concat(lines.Where(line => line[0] == mark).Select(line => line[1..] + "\n"));
        Assert.Contains(Side('-'), text, StringComparison.Ordinal);
        var at = text.IndexOf(Side('-'), StringComparison.Ordinal);
        File.WriteAllText(path, text[..at] + Side('+') + text[(at + Side('-').Length)..]);
    }

    [GeneratedRegex(
        "^```(console|diff [^\n]+)\n(.*?)^```$",
        RegexOptions.Multiline | RegexOptions.Singleline
    )]
    private static partial Regex Blocks();

    [GeneratedRegex(@"^\(exit code ([0-3])\)$")]
    private static partial Regex Code();
}
