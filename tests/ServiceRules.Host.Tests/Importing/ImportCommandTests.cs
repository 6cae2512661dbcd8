using System.Text;
using ServiceRules.TestKit;

namespace ServiceRules.Host.Tests.Importing;

public sealed class ImportCommandTests : IDisposable
{
    private const string MappingText = """
        {
          "format": "import-mapping/1",
          "groupBy": "Job",
          "record": [
            { "to": "/id", "column": "Job" },
            { "to": "/date", "column": "Date" },
            { "to": "/machine/id", "given": "M-02" },
            { "to": "/tasks", "given": "height-check", "as": "words" },
            { "to": "/complaint", "column": "Note" },
            { "to": "/signOff/by", "given": "tech-02" },
            { "to": "/signOff/at", "given": "2026-04-20T08:00:00+01:00", "as": "time" }
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

    private const string TableText = "Job,Date,Unit,Note\nT-1,2026-04-13,U-02-1,a\nT-2,2026-04-14,U-02-1,b\n";

    private readonly Product _product = new();

    public void Dispose() => _product.Dispose();

    [Fact]
    public void Import_DryRun_StoresNothingAndMakesNoFolder()
    {
        var outcome = Import(TableText, "--dry-run");

        Assert.True(outcome.ExitCode == 0, outcome.ToString());
        Assert.Contains("2 records are sound, 0 refused", outcome.StandardOutput, StringComparison.Ordinal);
        Assert.False(Directory.Exists(_product.At("data")));
    }

    [Fact]
    public void Import_OneRecordWrong_FilesTheOtherAndTellsRowAndColumn()
    {
        var outcome = Import(TableText.Replace("2026-04-13", "13 April", StringComparison.Ordinal));

        Assert.True(outcome.ExitCode == 1, outcome.ToString());
        Assert.Contains("T-2: record is entry 1", outcome.StandardOutput, StringComparison.Ordinal);
        Assert.DoesNotContain("T-1", outcome.StandardOutput, StringComparison.Ordinal);
        Assert.Contains("row 2, column B `Date`", outcome.StandardError, StringComparison.Ordinal);
        Assert.Contains("found `13 April`", outcome.StandardError, StringComparison.Ordinal);

        var mended = Import(TableText);

        Assert.True(mended.ExitCode == 0, mended.ToString());
        Assert.Contains(
            "Filed: 1 record; 1 stood already; 0 refused.",
            mended.StandardOutput,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Import_OtherContentUnderAnIdentityThatStands_IsAConflictAndChangesNothing()
    {
        Assert.Equal(0, Import(TableText).ExitCode);

        var outcome = Import(TableText.Replace(",a\n", ",other\n", StringComparison.Ordinal));

        Assert.True(outcome.ExitCode == 1, outcome.ToString());
        Assert.Contains("T-1 (from row 2)", outcome.StandardError, StringComparison.Ordinal);
        Assert.Contains("/complaint", outcome.StandardError, StringComparison.Ordinal);
        Assert.Contains(
            "0 records; 1 stood already; 1 refused",
            outcome.StandardOutput,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Import_TableThatIsNotWhole_FilesNothing()
    {
        var outcome = Import(TableText + "T-3,2026-04-15,U-02-1\n");

        Assert.True(outcome.ExitCode == 2, outcome.ToString());
        Assert.Contains("row 4: the row has 3 cells", outcome.StandardError, StringComparison.Ordinal);
        Assert.False(Directory.Exists(_product.At("data")));
    }

    [Fact]
    public void Import_NoMapping_SaysWhatIsNeeded()
    {
        var file = _product.Write("t.csv", Encoding.UTF8.GetBytes(TableText));

        var outcome = _product.Run("import", file);

        Assert.True(outcome.ExitCode == 2, outcome.ToString());
        Assert.Contains("--mapping", outcome.StandardError, StringComparison.Ordinal);
    }

    [Fact]
    public void Import_MappingThatIsWrong_IsToldWithItsPlace()
    {
        var outcome = Import(
            TableText,
            MappingText.Replace("\"/machine/id\"", "\"/machine/0\"", StringComparison.Ordinal)
        );

        Assert.True(outcome.ExitCode == 2, outcome.ToString());
        Assert.Contains("at /record/2/to", outcome.StandardError, StringComparison.Ordinal);
    }

    [Fact]
    public void Import_PersonOutsideTheRegister_IsRefused()
    {
        var outcome = Import(TableText, "--by", "nobody-01");

        Assert.True(outcome.ExitCode == 2, outcome.ToString());
        Assert.Contains("nobody-01", outcome.StandardError, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Import_WhileTheServiceRunsOnTheFolder_IsServedByIt()
    {
        await using var run = await ServiceRun.StartAsync(_product.Folder);
        using var before = await run.PostAsync("api/records", ServiceRun.Record("height-check"));

        var outcome = Import(TableText);
        using var after = await run.PostAsync("api/records", ServiceRun.Record("touch-up"));

        Assert.True(outcome.ExitCode == 0, outcome.ToString());
        Assert.Equal("T-1", (await run.GetJsonAsync("api/records/T-1")).GetProperty("id").GetString());
        // And the two acts of the start: a secret for a first administrator, and the key that asks here.
        Assert.Equal("11", (await run.TextAsync("api/ledger/checkpoint")).Split('\n')[1]);
    }

    private ProductOutcome Import(string table, params string[] more)
    {
        var isMapping = more is [var first, ..] && first.StartsWith('{');
        var mapping = _product.Write(
            "t.mapping.json",
            Encoding.UTF8.GetBytes(isMapping ? more[0] : MappingText)
        );
        var file = _product.Write("t.csv", Encoding.UTF8.GetBytes(table));
        return _product.Run([
            "import",
            file,
            "--mapping",
            mapping,
            "--data",
            _product.At("data"),
            .. isMapping ? more[1..] : more,
        ]);
    }
}
