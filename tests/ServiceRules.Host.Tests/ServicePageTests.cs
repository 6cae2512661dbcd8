using System.Globalization;
using ServiceRules.TestKit;

namespace ServiceRules.Host.Tests;

/// <summary>The commands of docs/service.md, run as they stand there against the service that the page starts.</summary>
public sealed class ServicePageTests : IDisposable
{
    private const string Begin = "```bash\n";
    private const string End = "```";
    private const string Start = "    servicerules serve --data service\n";
    private const string Port = "5080";

    private readonly string _folder = Directory.CreateTempSubdirectory("servicerules-page-").FullName;

    public void Dispose()
    {
        Directory.Delete(_folder, recursive: true);
        Directory.Delete(_folder + "-programs", recursive: true);
    }

    [SkippableFact]
    public void Page_CommandsAgainstTheServiceItStarts_AllGoThroughAndItStopsWhenTold()
    {
        _ = Tool.Require("curl");
        var page = File.ReadAllText(ReferenceFiles.InRepository("docs", "service.md"));
        Assert.Contains(Start, page, StringComparison.Ordinal);
        // Records stand in the source, which nothing may be written into.
        Directory.CreateSymbolicLink(Path.Combine(_folder, "rules"), ReferenceFiles.InRepository("rules"));
        // The usual port may be taken on the machine that tests.
        var free = FreePort.Find().ToString(CultureInfo.InvariantCulture);
        var commands = $$"""
            {{Start.Trim()}} --port {{Port}} > told.txt 2> log.txt & service=$!
            trap 'kill -9 $service 2>/dev/null || true' EXIT
            tries=0
            until curl -s -o /dev/null http://127.0.0.1:{{Port}}/health/ready; do
              tries=$((tries + 1)); [ $tries -lt 300 ]; sleep 0.2
            done
            {{Between(page, Begin, End)}}
            kill -TERM $service
            wait $service
            cat told.txt
            """.Replace(Port, free, StringComparison.Ordinal);

        var outcome = new ShellSession(_folder).Type(commands);

        Assert.True(outcome.ExitCode == 0, outcome.ToString());
        Assert.Contains(
            $"listens on http://127.0.0.1:{free}/",
            outcome.StandardOutput,
            StringComparison.Ordinal
        );
        Assert.Contains(
            "Its site is the example shop, Alder Reach Parks Trust",
            outcome.StandardOutput,
            StringComparison.Ordinal
        );
        Assert.Contains("GENUINE", outcome.StandardOutput, StringComparison.OrdinalIgnoreCase);
        Assert.Contains("The service has stopped.", outcome.StandardOutput, StringComparison.Ordinal);
    }

    private static string Between(string text, string begin, string end)
    {
        var from = text.IndexOf(begin, StringComparison.Ordinal) + begin.Length;
        return text[from..text.IndexOf(end, from, StringComparison.Ordinal)];
    }
}
