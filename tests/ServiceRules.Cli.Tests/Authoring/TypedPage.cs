using System.Globalization;
using System.Text.RegularExpressions;
using ServiceRules.TestKit;

namespace ServiceRules.Cli.Tests.Authoring;

/// <summary>
/// A page of the docs, typed and edited as it says in a folder with a copy of the shipped rules: what the page says must be said
/// is said, in that order. A command that ends in <c>&amp;</c> runs beside the others until the page is closed.
/// </summary>
internal sealed partial class TypedPage : IDisposable
{
    private const string UsualPort = "5080";
    private const string Running = "running.pid";

    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("servicerules-page-");
    private readonly string _port = FreePort.Find().ToString(CultureInfo.InvariantCulture);
    private readonly ShellSession _session;

    public TypedPage()
    {
        _session = new ShellSession(_folder.FullName);
        foreach (var file in Directory.GetFiles(RulesCopy.Shipped, "*.json", SearchOption.AllDirectories))
        {
            var copy = Path.Combine(_folder.FullName, "rules", Path.GetRelativePath(RulesCopy.Shipped, file));
            Directory.CreateDirectory(Path.GetDirectoryName(copy)!);
            File.Copy(file, copy);
        }
    }

    public void Dispose()
    {
        if (File.Exists(At(Running)))
        {
            _ = _session.Type($"kill -TERM $(cat {Running}) 2>/dev/null || true");
        }

        _folder.Delete(recursive: true);
        Directory.Delete(_folder.FullName + "-programs", recursive: true);
    }

    public string At(string name) => Path.Combine(_folder.FullName, name);

    /// <summary>Types and edits every block of a text; tells how many there were.</summary>
    public int Follow(string text)
    {
        var blocks = Blocks().Matches(text);
        foreach (Match block in blocks)
        {
            var (kind, lines) = (block.Groups[1].Value, block.Groups[2].Value.TrimEnd('\n').Split('\n'));
            if (kind == "console")
            {
                Type(lines);
            }
            else
            {
                Edit(kind["diff ".Length..], lines);
            }
        }

        return blocks.Count;
    }

    private void Type(string[] lines)
    {
        for (var at = 0; at < lines.Length; )
        {
            Assert.StartsWith("$ ", lines[at], StringComparison.Ordinal);
            var command = lines[at++][2..];
            while (command.EndsWith('\\'))
            {
                command = command[..^1] + lines[at++].TrimStart();
            }

            var said = _session.Type(Command(command));
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
                    $"^{Regex.Escape(lines[at]).Replace(@"\.\.\.", ".*", StringComparison.Ordinal)}$".Replace(
                        UsualPort,
                        _port,
                        StringComparison.Ordinal
                    ),
                    RegexOptions.Multiline
                );
                Assert.True(shown.Success, $"`{command}` does not say `{lines[at]}`, but:\n{said}");
                rest = rest[(shown.Index + shown.Length)..];
            }

            Assert.True(code == said.ExitCode, $"`{command}`: {said}");
        }
    }

    // The usual port may be taken on the machine that tests, and a service takes a moment until it may be asked.
    private string Command(string typed)
    {
        var command = typed.Replace(UsualPort, _port, StringComparison.Ordinal);
        if (!command.EndsWith('&'))
        {
            return command;
        }

        return $$"""
            {{command.Replace(
                "servicerules serve",
                $"servicerules serve --port {_port}",
                StringComparison.Ordinal
            )}} echo $! > {{Running}}
            tries=0
            until curl -s -o /dev/null http://127.0.0.1:{{_port}}/health/ready; do
              tries=$((tries + 1)); [ $tries -lt 300 ]; sleep 0.2
            done
            """;
    }

    private void Edit(string file, string[] lines)
    {
        var path = At(file);
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
