using System.Text;
using ServiceRules.TestKit;

namespace ServiceRules.Evidence.Tests.Log;

/// <summary>docs/ledger.md shows how to check a proof with a shell and OpenSSL; its commands are run as they stand.</summary>
public sealed class DocumentedCommandsTests : IDisposable
{
    private readonly SampleLog _log = new();
    private readonly string _folder = Directory.CreateTempSubdirectory("evidence-tests-").FullName;

    public void Dispose()
    {
        _log.Dispose();
        Directory.Delete(_folder, recursive: true);
    }

    [SkippableTheory]
    [InlineData(0, 1)]
    [InlineData(0, 8)]
    [InlineData(2, 3)]
    [InlineData(4, 7)]
    [InlineData(6, 7)]
    [InlineData(12, 13)]
    [InlineData(12, 29)]
    public void Root_RecomputedByShell_IsTheCheckpointsForTheEntryAlone(int index, int size)
    {
        Tool.Require("openssl");
        var shell = Tool.Require("sh");
        var proof = _log.Proof(index, size);
        File.WriteAllText(Path.Combine(_folder, "proof"), proof.ToString());

        var genuine = Lines(shell, $"entry {index}");
        var changed = Lines(shell, $"entry {index} ");

        var root = proof.Checkpoint.Head.Root.ToString();
        Assert.Equal([root, root], genuine);
        Assert.NotEqual(root, changed[0]);
        Assert.Equal(root, changed[1]);
    }

    private string[] Lines(Tool shell, string entry)
    {
        File.WriteAllBytes(Path.Combine(_folder, "entry.json"), Encoding.UTF8.GetBytes(entry));
        var commands = File.ReadAllLines(ReferenceFiles.InRepository("docs", "ledger.md"))
            .SkipWhile(line => line != "### Recomputing the root without this product")
            .TakeWhile(line => !line.StartsWith("## ", StringComparison.Ordinal))
            .Where(line => line.StartsWith("    ", StringComparison.Ordinal));

        var said = shell.Run("-e", "-c", $"cd '{_folder}'\n{string.Join('\n', commands)}");

        Assert.True(said.ExitCode == 0, said.ToString());
        return said.StandardOutput.Split('\n', StringSplitOptions.RemoveEmptyEntries);
    }
}
