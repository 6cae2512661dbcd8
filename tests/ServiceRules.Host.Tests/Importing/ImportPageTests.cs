using ServiceRules.TestKit;

namespace ServiceRules.Host.Tests.Importing;

/// <summary>The commands of docs/import.md, run as they stand there.</summary>
public sealed class ImportPageTests : IDisposable
{
    private const string Begin = "```bash\n";
    private const string End = "\n```";

    private readonly string _folder = Directory.CreateTempSubdirectory("servicerules-page-").FullName;

    public void Dispose()
    {
        Directory.Delete(_folder, recursive: true);
        Directory.Delete(_folder + "-programs", recursive: true);
    }

    [SkippableFact]
    public void Page_CommandsAsTheyStand_TryFileAndFindItStanding()
    {
        _ = Tool.Require("sh");
        var page = File.ReadAllText(ReferenceFiles.InRepository("docs", "import.md"));
        var from = page.IndexOf(Begin, StringComparison.Ordinal) + Begin.Length;
        var commands = page[from..page.IndexOf(End, from, StringComparison.Ordinal)];

        var outcome = new ShellSession(_folder).Type(commands);

        Assert.True(outcome.ExitCode == 0, outcome.ToString());
        Assert.Equal(
            [
                "H-101: would be submitted, stop",
                "Nothing was filed: 1 record is sound, 0 refused. What stands in the store was not looked at.",
                "H-101: record is entry 1, stop",
                "Filed: 1 record; 0 stood already; 0 refused.",
                "H-101: record stands already as entry 1, stop",
                "Filed: 0 records; 1 stood already; 0 refused.",
            ],
            outcome.StandardOutput.Split('\n', StringSplitOptions.RemoveEmptyEntries)
        );
    }
}
