using ServiceRules.TestKit;

namespace ServiceRules.Cli.Tests;

/// <summary>The commands of docs/ledger.md, run as they stand there by bash, coreutils and OpenSSL.</summary>
public sealed class LedgerPageTests : IDisposable
{
    private const string Heading = "## Checking an export with ordinary tools";
    private const string Begin = "```bash\n";
    private const string End = "```";

    private readonly Product _product = new();

    public void Dispose() => _product.Dispose();

    private static string Commands()
    {
        var page = File.ReadAllText(ReferenceFiles.InRepository("docs", "ledger.md"));
        var begin = page.IndexOf(
            Begin,
            page.IndexOf(Heading, StringComparison.Ordinal),
            StringComparison.Ordinal
        );
        var text = page[(begin + Begin.Length)..];
        return text[..text.IndexOf(End, StringComparison.Ordinal)];
    }

    private static ToolOutcome Run(string folder) =>
        Tool.Require("bash").Run("-euo", "pipefail", "-c", $"cd '{folder}'\n{Commands()}");

    [SkippableFact]
    public void Page_CommandsOnAnExport_FindItSoundAndSeeEachChange()
    {
        _ = Tool.Require("openssl");
        string[] ledger = ["--ledger", _product.At("ledger")];
        string[] records =
        [
            Fixtures.PathOf("height-check"),
            Fixtures.PathOf("touch-up"),
            Fixtures.PathOf("lap"),
        ];
        Assert.Equal(0, _product.Run(["ledger", "add", .. records, .. ledger]).ExitCode);
        var folder = _product.At("out");
        Assert.Equal(0, _product.Run(["ledger", "export", folder, .. ledger]).ExitCode);

        var sound = Run(folder);
        Assert.True(sound.ExitCode == 0, sound.ToString());
        Assert.Contains("Verified OK", sound.StandardOutput, StringComparison.Ordinal);
        Assert.Contains("7 entries, root as signed", sound.StandardOutput, StringComparison.Ordinal);
        Assert.DoesNotContain("not kept", sound.StandardOutput, StringComparison.Ordinal);

        var content = Directory
            .GetFiles(Path.Combine(folder, "contents"))
            .Order(StringComparer.Ordinal)
            .First();
        foreach (
            var file in new[]
            {
                content,
                Path.Combine(folder, "entries.jsonl"),
                Path.Combine(folder, "checkpoint.txt"),
            }
        )
        {
            var bytes = File.ReadAllBytes(file);
            bytes[^20] ^= 1;
            File.WriteAllBytes(file, bytes);
            Assert.NotEqual(0, Run(folder).ExitCode);
            bytes[^20] ^= 1;
            File.WriteAllBytes(file, bytes);
        }

        Assert.Equal(0, Run(folder).ExitCode);
    }
}
