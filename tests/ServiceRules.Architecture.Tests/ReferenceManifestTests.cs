using ServiceRules.TestKit;

namespace ServiceRules.Architecture.Tests;

public sealed class ReferenceManifestTests
{
    [Fact]
    public void ReferenceManifest_EveryReferenceFile_IsListedAndUnchanged()
    {
        var folder = ReferenceFiles.At();
        var manifest = Path.Combine(folder, ReferenceManifest.FileName);
        var actual = ReferenceManifest.Compute(folder);
        if (TestRun.IsAccepting)
        {
            File.WriteAllText(manifest, string.Concat(actual.Select(line => line + "\n")));
        }

        var differences = ReferenceManifest.Differences(File.ReadAllLines(manifest), actual);

        Assert.True(
            differences.Count == 0,
            $"tests/reference is not what its manifest says; if this is meant, run: {ReferenceManifest.RefreshCommand}\n"
                + string.Join('\n', differences)
        );
    }

    [Fact]
    public void Differences_MissingChangedAndUnlisted_AreEachNamed()
    {
        string[] listed = ["01  a.json", "02  b.json", "03  c.json"];
        string[] actual = ["01  a.json", "ff  c.json", "04  d.json"];

        Assert.Equal(
            ["missing: b.json", "not listed: d.json", "changed: c.json"],
            ReferenceManifest.Differences(listed, actual)
        );
        Assert.Empty(ReferenceManifest.Differences(listed, listed));
    }

    [Fact]
    public void SourcesPage_EveryReferenceFolder_HasARow()
    {
        var page = ReferenceFiles.ReadText("SOURCES.md");
        var folders = ReferenceManifest
            .Compute(ReferenceFiles.At())
            .Select(line => line[66..])
            .Where(name => name.Contains('/', StringComparison.Ordinal))
            .Select(name => string.Join('/', name.Split('/')[..^1].Take(2)))
            .Distinct(StringComparer.Ordinal);

        Assert.All(folders, folder => Assert.Contains($"| `{folder}`", page, StringComparison.Ordinal));
    }
}
