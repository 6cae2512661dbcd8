using System.Text.Json.Nodes;
using ServiceRules.Application.Filed;

namespace ServiceRules.Application.Tests.Filed;

public sealed class RecordGatheringTests : IDisposable
{
    private readonly RecordFiles _files = new();

    public void Dispose() => _files.Dispose();

    private Gathered<FiledRecord> Gather(params string[] paths) =>
        RecordFiles.Gathering.Gather(paths.Length == 0 ? [_files.Folder] : paths, filed => filed);

    private static JsonObject Job(string id, string date = "2026-04-13")
    {
        var job = RecordFiles.Fixture("height-check");
        job["id"] = id;
        job["date"] = date;
        return job;
    }

    [Fact]
    public void Gather_FolderWithFoldersBelow_TakesEveryRecordByDayThenIdentity()
    {
        _files.Write("b/late.json", Job("J-2", "2026-04-14"));
        _files.Write("a.json", Job("J-3"));
        _files.Write("c/d/first.json", Job("J-1"));
        _files.Write("notes.txt", "not a record");

        var gathered = Gather();

        Assert.Equal(["J-1", "J-3", "J-2"], gathered.Kept.Select(filed => filed.Record.Id.Text));
        Assert.Empty(gathered.Files.Problems);
    }

    /// <summary>What a folder holds and nobody reads is told by name.</summary>
    [Fact]
    public void Gather_LinksAndContextsWithoutARecord_AreToldAndNotRead()
    {
        var job = _files.Write("a.record.json", Job("J-1"));
        _files.Write("a.context.json", RecordFiles.Context("height-check"));
        var stray = _files.Write("b.context.json", Job("J-2"));
        var link = Path.Combine(_files.Folder, "c.json");
        _ = File.CreateSymbolicLink(link, job);
        using var elsewhere = new RecordFiles();
        elsewhere.Write("d.json", Job("J-3"));
        var folder = Path.Combine(_files.Folder, "more");
        _ = Directory.CreateSymbolicLink(folder, elsewhere.Folder);

        var gathered = Gather();

        Assert.Equal("J-1", Assert.Single(gathered.Kept).Record.Id.Text);
        Assert.Equal([link, folder, stray], gathered.Files.Problems.Select(problem => problem.File));
    }

    [Fact]
    public void Gather_SameRecordInTwoFiles_CountsOnce()
    {
        _files.Write("a.json", Job("J-1"));
        _files.Write("b.json", Job("J-1").ToJsonString().Replace(",", " ,\n", StringComparison.Ordinal));

        var gathered = Gather();

        Assert.Single(gathered.Kept);
        Assert.Equal((1, 1, 0), (gathered.Files.Records, gathered.Files.Repeated, gathered.Files.Superseded));
        Assert.Empty(gathered.Files.Problems);
    }

    [Theory]
    [InlineData("a.json", "b.json")]
    [InlineData("b.json", "a.json")]
    public void Gather_OpenJobAndTheSameSignedOff_TakesTheSignedOneInEitherOrder(string first, string second)
    {
        var open = Job("J-1");
        open.Remove("signOff");
        open.Remove("followUp");
        _files.Write(first, open);
        _files.Write(second, Job("J-1"));

        var gathered = Gather();

        Assert.NotNull(Assert.Single(gathered.Kept).Record.SignOff);
        Assert.Equal((1, 0, 1), (gathered.Files.Records, gathered.Files.Repeated, gathered.Files.Superseded));
    }

    [Fact]
    public void Gather_TwoSignedJobsOfOneIdentity_UsesNeitherAndNamesBothFiles()
    {
        var a = _files.Write("a.json", Job("J-1"));
        var b = _files.Write("b.json", Job("J-1", "2026-04-14"));
        _files.Write("c.json", Job("J-2"));

        var gathered = Gather();

        Assert.Equal("J-2", Assert.Single(gathered.Kept).Record.Id.Text);
        Assert.Equal([a, b], gathered.Files.Problems.Select(problem => problem.File));
        Assert.Contains(b, Assert.Single(gathered.Files.Problems[0].Lines), StringComparison.Ordinal);
        Assert.Contains(a, Assert.Single(gathered.Files.Problems[1].Lines), StringComparison.Ordinal);
        var contradicting = Assert.Single(gathered.Files.Contradicting);
        Assert.Equal("J-1", contradicting.Record);
        Assert.Equal<IEnumerable<string>>([a, b], contradicting.Files);
    }

    [Fact]
    public void Gather_ThreeSignedJobsOfOneIdentity_NamesEachFileOnce()
    {
        var a = _files.Write("a.json", Job("J-1"));
        var b = _files.Write("b.json", Job("J-1", "2026-04-14"));
        var c = _files.Write("c.json", Job("J-1", "2026-04-15"));

        var files = Gather().Files;

        Assert.Equal([a, b, c], files.Problems.Select(problem => problem.File));
        Assert.Equal<IEnumerable<string>>([a, b, c], Assert.Single(files.Contradicting).Files);
    }

    [Fact]
    public void Gather_BadFileAmongGoodOnes_TellsEveryProblemAndTakesTheRest()
    {
        var faulty = Job("J-1");
        faulty["date"] = "13/04/2026";
        faulty["machine"]!["hours"] = "640,0 h";
        var bad = _files.Write("bad.json", faulty);
        _files.Write("good.json", Job("J-2"));
        var missing = Path.Combine(_files.Folder, "missing.json");

        var gathered = Gather(_files.Folder, missing);

        Assert.Single(gathered.Kept);
        Assert.Equal([bad, missing], gathered.Files.Problems.Select(problem => problem.File));
        Assert.Equal(2, gathered.Files.Problems[0].Lines.Length);
        Assert.Contains("/date", gathered.Files.Problems[0].Lines[0], StringComparison.Ordinal);
        Assert.Contains("/machine/hours", gathered.Files.Problems[0].Lines[1], StringComparison.Ordinal);
    }

    [Fact]
    public void Gather_EmptyFolder_IsAProblem()
    {
        var problem = Assert.Single(Gather().Files.Problems);

        Assert.Equal(_files.Folder, problem.File);
    }

    [Fact]
    public void Gather_ContextBesideTheRecord_ComesWithItAndIsNoRecord()
    {
        _files.Write("height-check.record.json", Job("J-1"));
        _files.Write("height-check.context.json", RecordFiles.Context("height-check"));

        var gathered = Gather();

        Assert.Equal("Alder Reach Parks Trust", Assert.Single(gathered.Kept).Context!.Site);
        Assert.Empty(gathered.Files.Problems);
    }

    [Fact]
    public void Gather_OneIdentityAtTwoSites_IsTwoRecords()
    {
        _files.Write("here.json", Job("J-1"));
        _files.Write("there.record.json", Job("J-1", "2026-04-14"));
        _files.Write(
            "there.context.json",
            RecordFiles
                .Context("height-check")
                .Replace("Alder Reach Parks Trust", "the other site", StringComparison.Ordinal)
        );

        var gathered = Gather();

        Assert.Equal([null, "the other site"], gathered.Kept.Select(filed => filed.Context?.Site));
        Assert.Empty(gathered.Files.Problems);
    }

    [Fact]
    public void Gather_SheetThatIsNotInForce_IsAProblemOfThatFile()
    {
        var job = Job("J-1");
        job["units"]![0]!["sheet"] = "reel-90-5-400";
        _files.Write("a.json", job);

        var problem = Assert.Single(Gather().Files.Problems);

        Assert.Contains("/units/0/sheet", Assert.Single(problem.Lines), StringComparison.Ordinal);
    }

    [Fact]
    public void Gather_BrokenReport_SaysThatItIsNotIntact()
    {
        _files.Write("report.pdf", "%PDF-1.7");

        Assert.Contains(
            "not an intact signed report",
            Assert.Single(Assert.Single(Gather().Files.Problems).Lines),
            StringComparison.Ordinal
        );
    }
}
