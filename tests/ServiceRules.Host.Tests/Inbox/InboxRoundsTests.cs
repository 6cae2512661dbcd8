using System.Text;
using System.Text.Json;
using ServiceRules.Application.Submitting;
using ServiceRules.Formats.Imports;
using ServiceRules.Storage.Inbox;
using ServiceRules.TestKit;

namespace ServiceRules.Host.Tests.Inbox;

public sealed class InboxRoundsTests
{
    private const string MappingText = """
        {
          "format": "import-mapping/1",
          "groupBy": "Job",
          "record": [
            { "to": "/id", "column": "Job" },
            { "to": "/date", "column": "Date" },
            { "to": "/machine/id", "given": "M-02" },
            { "to": "/tasks", "given": "height-check", "as": "words" }
          ],
          "lists": [
            { "in": "/people", "values": [{ "to": "/id", "given": "tech-02" }, { "to": "/role", "given": "performs" }] },
            {
              "in": "/units", "key": ["Unit"],
              "values": [{ "to": "/id", "column": "Unit" }, { "to": "/sheet", "given": "reel-125-9-510" }]
            }
          ]
        }
        """;

    private const string TableText = "Job,Date,Unit\nT-1,2026-04-13,U-02-1\nT-2,2026-04-14,U-02-1\n";

    private static readonly ImportMapping Mapping = Read();

    [Fact]
    public async Task RunAsync_Record_IsFiledAnsweredAndMoved()
    {
        await using var bench = new InboxBench();
        var record = ServiceRun.Record("height-check");
        bench.Drop("job.json", record);

        await bench.SettleAsync();

        Assert.Equal(["job.json"], bench.Names("filed"));
        Assert.Equal(record, await File.ReadAllBytesAsync(bench.At("filed", "job.json")));
        Assert.Empty(bench.Names(".taken"));
        Assert.False(File.Exists(bench.At("job.json")));
        var answer = bench.Answer("filed", "job.json");
        Assert.Equal("job.json", answer.GetProperty("file").GetString());
        Assert.Equal("filed", answer.GetProperty("outcome").GetString());
        Assert.Equal("F-height-check", answer.GetProperty("record").GetProperty("id").GetString());
        Assert.True(answer.GetProperty("record").GetProperty("isNew").GetBoolean());
        Assert.Equal(3, bench.LogSize);
    }

    [Fact]
    public async Task RunAsync_FileThatStillGrows_IsLeftUntilItHasSettled()
    {
        await using var bench = new InboxBench();
        var record = ServiceRun.Record("height-check");
        bench.Drop("job.json", record[..100]);
        await bench.Rounds.RunAsync(CancellationToken.None);
        bench.Clock.Pass(TimeSpan.FromSeconds(1.9));
        bench.Drop("job.json", record);
        await bench.Rounds.RunAsync(CancellationToken.None);
        bench.Clock.Pass(TimeSpan.FromSeconds(1.9));

        await bench.Rounds.RunAsync(CancellationToken.None);
        Assert.True(File.Exists(bench.At("job.json")));

        bench.Clock.Pass(TimeSpan.FromSeconds(0.2));
        await bench.Rounds.RunAsync(CancellationToken.None);
        Assert.Equal(["job.json"], bench.Names("filed"));
    }

    [Theory]
    [InlineData(".job.json")]
    [InlineData("job.json.tmp")]
    [InlineData("job.json.part")]
    [InlineData("job.json~")]
    public async Task RunAsync_Draft_IsLeftAloneUntilItIsRenamed(string draft)
    {
        await using var bench = new InboxBench();
        bench.Drop(draft, ServiceRun.Record("height-check"));
        await bench.SettleAsync();
        Assert.True(File.Exists(bench.At(draft)));

        File.Move(bench.At(draft), bench.At("job.json"));
        await bench.SettleAsync();

        Assert.Equal(["job.json"], bench.Names("filed"));
    }

    [Fact]
    public async Task RunAsync_FiledButNotYetMoved_IsAnsweredAgainByWhatStands()
    {
        // What a kill between filing and moving leaves behind.
        var record = ServiceRun.Record("height-check");
        var place = Directory.CreateTempSubdirectory("servicerules-inbox-").FullName;
        try
        {
            await using (var before = new InboxBench(place))
            {
                before.Drop("job.json", record);
                File.Move(before.At("job.json"), before.At(".taken", "job.json"));
                Assert.IsType<SubmissionOutcome.Stored>(
                    await before.Desk.SubmitAsync(new Submission(record), CancellationToken.None)
                );
            }

            await using var after = new InboxBench(place);
            await after.SettleAsync();

            Assert.Equal(["job.json"], after.Names("filed"));
            Assert.Empty(after.Names(".taken"));
            Assert.False(
                after.Answer("filed", "job.json").GetProperty("record").GetProperty("isNew").GetBoolean()
            );
            Assert.Equal(3, after.LogSize);
        }
        finally
        {
            Directory.Delete(place, recursive: true);
        }
    }

    [Fact]
    public async Task RunAsync_AnsweredButNotYetMoved_IsMovedUnderItsName()
    {
        await using var bench = new InboxBench();
        bench.Drop("job.json", ServiceRun.Record("height-check"));
        File.Move(bench.At("job.json"), bench.At(".taken", "job.json"));
        await File.WriteAllTextAsync(bench.At("filed", "job.json.answer.json"), "{}");

        await bench.SettleAsync();

        Assert.Equal(["job.json"], bench.Names("filed"));
        Assert.Equal("filed", bench.Answer("filed", "job.json").GetProperty("outcome").GetString());
    }

    [Fact]
    public async Task RunAsync_NameThatIsTakenThere_GetsANumberAndNothingIsWrittenOver()
    {
        await using var bench = new InboxBench();
        foreach (var id in new[] { "J-1", "J-2", "J-3" })
        {
            bench.Drop("job.json", ServiceRun.Record("height-check", ("F-height-check", id)));
            await bench.SettleAsync();
        }

        Assert.Equal(["job-2.json", "job-3.json", "job.json"], bench.Names("filed"));
        Assert.Equal(
            "J-1",
            bench.Answer("filed", "job.json").GetProperty("record").GetProperty("id").GetString()
        );
        Assert.Equal(
            "J-3",
            bench.Answer("filed", "job-3.json").GetProperty("record").GetProperty("id").GetString()
        );
    }

    [Fact]
    public async Task RunAsync_OtherContentUnderOneIdentity_IsSetAsideWithTheDifferences()
    {
        await using var bench = new InboxBench();
        bench.Drop("a.json", ServiceRun.Record("height-check"));
        bench.Drop("b.json", ServiceRun.Record("height-check", ("3.82 mm", "3.84 mm")));

        await bench.SettleAsync();

        Assert.Equal(["a.json"], bench.Names("filed"));
        Assert.Equal(["b.json"], bench.Names("refused"));
        var problem = bench.Answer("refused", "b.json").GetProperty("problem");
        Assert.Equal(409, problem.GetProperty("status").GetInt32());
        Assert.Equal(
            "/units/0/entries/1/value",
            problem.GetProperty("differences")[0].GetProperty("pointer").GetString()
        );
    }

    [Fact]
    public async Task RunAsync_RecordWithProblems_IsSetAsideWithEachPlace()
    {
        await using var bench = new InboxBench();
        bench.Drop("job.json", ServiceRun.Record("height-check", ("3.82 mm", "3.82"), ("412.5 h", "412.5")));

        await bench.SettleAsync();

        Assert.Equal(["job.json"], bench.Names("refused"));
        Assert.Equal(0, bench.LogSize);
        Assert.Equal(
            ["/machine/hours", "/units/0/entries/1/value"],
            bench
                .Answer("refused", "job.json")
                .GetProperty("problem")
                .GetProperty("problems")
                .EnumerateArray()
                .Select(problem => problem.GetProperty("pointer").GetString())
        );
    }

    [Theory]
    [InlineData("note.txt", "files that end so")]
    [InlineData("job", "files that end so")]
    [InlineData("job.json.exe", "files that end so")]
    [InlineData("job.csv", "which column goes where")]
    public async Task RunAsync_FileOfWhichNothingIsKnown_IsSetAside(string name, string why)
    {
        await using var bench = new InboxBench();
        bench.Drop(name, "x");

        await bench.SettleAsync();

        Assert.Equal([name], bench.Names("refused"));
        Assert.Contains(
            why,
            bench.Answer("refused", name).GetProperty("problem").GetProperty("detail").GetString(),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public async Task RunAsync_EmptyAndOversizedFiles_AreSetAsideUnread()
    {
        await using var bench = new InboxBench();
        bench.Drop("empty.json", "");
        bench.Drop("large.json", new byte[(2 * 1024 * 1024) + 1]);

        await bench.SettleAsync();

        Assert.Equal(["empty.json", "large.json"], bench.Names("refused"));
        Assert.False(bench.Answer("refused", "large.json").TryGetProperty("sha256", out _));
    }

    [SkippableFact]
    public async Task RunAsync_Links_AreSetAsideAndNotFollowed()
    {
        Skip.If(OperatingSystem.IsWindows(), "links need rights there");
        await using var bench = new InboxBench();
        var secret = bench.At("..", "secret.json");
        await File.WriteAllBytesAsync(secret, ServiceRun.Record("height-check"));
        File.CreateSymbolicLink(bench.At("link.json"), secret);
        File.CreateSymbolicLink(bench.At("dangling.json"), bench.At("..", "nothing"));
        Directory.CreateSymbolicLink(bench.At("folder.json"), bench.At(".."));
        bench.Drop("sound.json", ServiceRun.Record("touch-up"));

        await bench.SettleAsync();

        Assert.Equal(["dangling.json", "link.json"], bench.Names("refused"));
        Assert.NotNull(new FileInfo(bench.At("refused", "link.json")).LinkTarget);
        Assert.True(File.Exists(secret));
        Assert.Equal(["sound.json"], bench.Names("filed"));
        Assert.Equal(3, bench.LogSize);
    }

    [SkippableFact]
    public async Task RunAsync_Pipe_IsSetAsideAndNotWaitedOn()
    {
        await using var bench = new InboxBench();
        Assert.Equal(0, Tool.Require("mkfifo").Run(bench.At("pipe.json")).ExitCode);

        await bench.SettleAsync().WaitAsync(TimeSpan.FromSeconds(30));

        Assert.Equal(["pipe.json"], bench.Names("refused"));
    }

    [SkippableFact]
    public async Task RunAsync_FolderOfAnswersThatBecameALink_WritesNothingThere()
    {
        Skip.If(OperatingSystem.IsWindows(), "links need rights there");
        await using var bench = new InboxBench();
        var elsewhere = Directory.CreateDirectory(bench.At("..", "elsewhere")).FullName;
        Directory.Delete(bench.At("filed"));
        Directory.CreateSymbolicLink(bench.At("filed"), elsewhere);
        bench.Drop("job.json", ServiceRun.Record("height-check"));

        await bench.SettleAsync();

        Assert.Empty(Directory.EnumerateFileSystemEntries(elsewhere));
        Assert.True(File.Exists(bench.At("job.json")));
    }

    [SkippableFact]
    public async Task RunAsync_LongestName_IsAnsweredUnderAShorterOne()
    {
        Skip.If(OperatingSystem.IsWindows(), "paths are shorter there");
        await using var bench = new InboxBench();
        var name = new string('n', 250) + ".json";
        bench.Drop(name, ServiceRun.Record("height-check"));

        await bench.SettleAsync();

        var shorter = Assert.Single(bench.Names("filed"));
        Assert.StartsWith("long-name-", shorter, StringComparison.Ordinal);
        Assert.Equal(name, bench.Answer("filed", shorter).GetProperty("file").GetString());
    }

    [Fact]
    public async Task RunAsync_TableWithItsMappingBeside_IsFiledAndTheMappingGoesWithIt()
    {
        await using var bench = new InboxBench();
        bench.Drop("heights.mapping.json", MappingText);
        bench.Drop("heights.csv", TableText);

        await bench.SettleAsync();

        Assert.Equal(["heights.csv", "heights.csv.mapping.json"], bench.Names("filed"));
        var records = bench.Answer("filed", "heights.csv").GetProperty("records");
        Assert.Equal(
            [("T-1", true, 1L), ("T-2", true, 3L)],
            records
                .EnumerateArray()
                .Select(one =>
                    (
                        one.GetProperty("id").GetString()!,
                        one.GetProperty("stands").GetBoolean(),
                        one.GetProperty("entry").GetProperty("index").GetInt64()
                    )
                )
        );
        Assert.False(File.Exists(bench.At("heights.mapping.json")));
    }

    [Fact]
    public async Task RunAsync_TableOfWhichOneRecordIsWrong_FilesTheOthersAndIsSetAside()
    {
        await using var bench = new InboxBench(mapping: Mapping);
        bench.Drop("heights.csv", TableText.Replace("2026-04-13", "2026-13-04", StringComparison.Ordinal));

        await bench.SettleAsync();

        Assert.Equal(["heights.csv"], bench.Names("refused"));
        var records = bench.Answer("refused", "heights.csv").GetProperty("records").EnumerateArray().ToList();
        Assert.Equal([false, true], records.Select(one => one.GetProperty("stands").GetBoolean()));
        var row = records[0].GetProperty("rows")[0];
        Assert.Equal((2, "Date", "2026-13-04"), (Number(row), Text(row, "column"), Text(row, "found")));
        Assert.Equal(3, bench.LogSize);

        bench.Drop("heights.csv", TableText);
        await bench.SettleAsync();

        Assert.Equal(["heights.csv"], bench.Names("filed"));
        Assert.Equal(
            [true, false],
            bench
                .Answer("filed", "heights.csv")
                .GetProperty("records")
                .EnumerateArray()
                .Select(one => one.GetProperty("isNew").GetBoolean())
        );
    }

    [Fact]
    public async Task RunAsync_TableThatIsNotWhole_FilesNothing()
    {
        await using var bench = new InboxBench(mapping: Mapping);
        bench.Drop("heights.csv", TableText + "T-3,2026-04-15\n");

        await bench.SettleAsync();

        Assert.Equal(["heights.csv"], bench.Names("refused"));
        Assert.Equal(4, Number(bench.Answer("refused", "heights.csv").GetProperty("rows")[0]));
        Assert.Equal(0, bench.LogSize);
    }

    [Fact]
    public async Task RunAsync_MappingThatIsWrong_IsToldWithItsPlace()
    {
        await using var bench = new InboxBench(mapping: Mapping);
        bench.Drop(
            "heights.mapping.json",
            MappingText.Replace("groupBy", "groupedBy", StringComparison.Ordinal)
        );
        bench.Drop("heights.csv", TableText);

        await bench.SettleAsync();

        Assert.Contains(
            "/groupedBy",
            bench.Answer("refused", "heights.csv").GetProperty("problem").GetProperty("detail").GetString(),
            StringComparison.Ordinal
        );
        Assert.Equal(0, bench.LogSize);
    }

    [Fact]
    public async Task Open_InboxThatAnotherHas_IsRefused()
    {
        await using var bench = new InboxBench();

        Assert.Throws<IOException>(() => InboxFolder.Open(bench.Folder));
    }

    private static int Number(JsonElement row) => row.GetProperty("row").GetInt32();

    private static string? Text(JsonElement row, string name) => row.GetProperty(name).GetString();

    private static ImportMapping Read()
    {
        Assert.True(
            ImportMappingFormat
                .Current.Read(Encoding.UTF8.GetBytes(MappingText))
                .TryGet(out var mapping, out _)
        );
        return mapping!;
    }
}
