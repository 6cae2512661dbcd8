using ServiceRules.TestKit;

namespace ServiceRules.Cli.Tests;

/// <summary>docs/verdicts.md shows a record and an answer for each verdict; the commands are run as they stand.</summary>
public sealed class DocumentedVerdictsTests : IDisposable
{
    private const string Prompt = "    $ servicerules ";

    private readonly Product _product = new();

    public void Dispose() => _product.Dispose();

    public static TheoryData<string, int> Examples { get; } =
        new()
        {
            { "met", 0 },
            { "not-met", 1 },
            { "unproven-by-guard", 1 },
            { "unproven-by-coarse-gauge", 1 },
            { "unproven-by-void", 1 },
        };

    [Theory]
    [MemberData(nameof(Examples))]
    public void Check_DocumentedRecord_AnswersAsThePageShows(string name, int exit)
    {
        var (command, shown) = Block(name);

        var outcome = _product.Run([
            .. command.Select(word =>
                word.StartsWith("docs/", StringComparison.Ordinal)
                    ? ReferenceFiles.InRepository(word.Split('/'))
                    : word
            ),
        ]);

        Assert.True(outcome.ExitCode == exit, outcome.ToString());
        var told = outcome.StandardOutput.Split('\n').Select(line => line.TrimEnd()).ToList();
        var at = -1;
        foreach (var line in shown)
        {
            at = told.IndexOf(line, at + 1);
            Assert.True(at >= 0, $"`{line}` is not in, or not in this order in\n{outcome}");
        }
    }

    [Fact]
    public void Page_ShowsEveryRecordOfTheFolder() =>
        Assert.Equal(
            Directory
                .EnumerateFiles(ReferenceFiles.InRepository("docs", "examples", "verdicts"))
                .Select(Path.GetFileNameWithoutExtension)
                .Order(StringComparer.Ordinal),
            Examples.Select(row => (string)((object[])row)[0]).Order(StringComparer.Ordinal)
        );

    /// <summary>The command, and the lines shown under it that are not left out.</summary>
    private static (string[] Command, List<string> Shown) Block(string name)
    {
        var lines = File.ReadAllLines(ReferenceFiles.InRepository("docs", "verdicts.md"))
            .SkipWhile(line =>
                !(
                    line.StartsWith(Prompt, StringComparison.Ordinal)
                    && line.EndsWith($"/{name}.json", StringComparison.Ordinal)
                )
            )
            .TakeWhile(line => line.StartsWith("    ", StringComparison.Ordinal))
            .ToList();
        return (
            lines[0][Prompt.Length..].Split(' '),
            [.. lines.Skip(1).Select(line => line[4..]).Where(line => line != "...")]
        );
    }
}
