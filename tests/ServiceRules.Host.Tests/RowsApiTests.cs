using System.Net;
using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using ServiceRules.Client;
using ServiceRules.Host.Tests.Clients;

namespace ServiceRules.Host.Tests;

public sealed class RowsApiTests(FiledShop shop) : IClassFixture<FiledShop>
{
    private readonly ServiceRun _run = shop.Run;

    private async Task<List<string>> IdsAsync(string query) =>
        [
            .. (await _run.GetJsonAsync("api/records" + query))
                .GetProperty("items")
                .EnumerateArray()
                .Select(item => item.GetProperty("id").GetString()!),
        ];

    [Theory]
    [InlineData("", "J-3,J-2,J-1")]
    [InlineData("?order=oldest", "J-1,J-2,J-3")]
    [InlineData("?from=2026-04-14", "J-3,J-2")]
    [InlineData("?until=2026-04-13", "J-1")]
    [InlineData("?from=2026-04-14&until=2026-04-14", "J-2")]
    [InlineData("?machine=M-02&limit=2", "J-3,J-2")]
    [InlineData("?machine=M-99", "")]
    [InlineData("?unit=U-02-3", "J-3,J-2,J-1")]
    [InlineData("?unit=U-99", "")]
    [InlineData("?state=open", "")]
    [InlineData("?state=signed-off&disposition=release", "J-3,J-1")]
    [InlineData("?disposition=hold", "J-2")]
    [InlineData("?versions=all&order=oldest", "J-1,J-2,J-3,J-3")]
    public async Task Records_Filtered_AreThoseAskedFor(string query, string ids) =>
        Assert.Equal(ids, string.Join(',', await IdsAsync(query)));

    [Fact]
    public async Task Records_PageByPage_AreAllOfThemOnce()
    {
        var seen = new List<string>();
        string? after = null;
        for (var pages = 0; pages < 10; pages++)
        {
            var page = await _run.Typed.ListRecordsAsync(limit: "1", after: after);
            seen.AddRange(page.Items.Select(item => item.Id));
            after = page.Next;
            if (after is null)
            {
                break;
            }
        }

        Assert.Equal(["J-3", "J-2", "J-1"], seen);
    }

    [Fact]
    public async Task Records_PageThatHasANext_LeadsToItByALink()
    {
        using var answer = await _run.GetAsync("api/records?limit=1");

        var link = string.Join(' ', answer.Headers.GetValues("Link"));
        Assert.Contains("rel=\"next\"", link, StringComparison.Ordinal);
        using var next = await _run.GetAsync(link[2..link.IndexOf('>', StringComparison.Ordinal)]);
        Assert.Equal(
            "J-2",
            (await ServiceRun.JsonAsync(next)).GetProperty("items")[0].GetProperty("id").GetString()
        );
    }

    [Theory]
    [InlineData("api/records?machin=M-02")]
    [InlineData("api/records?from=13.4.2026")]
    [InlineData("api/records?until=2026-02-30")]
    [InlineData("api/records?disposition=ok")]
    [InlineData("api/records?state=closed")]
    [InlineData("api/records?limit=0")]
    [InlineData("api/records?limit=1001")]
    [InlineData("api/records?limit=x")]
    [InlineData("api/records?after=x")]
    [InlineData("api/records?order=newest")]
    [InlineData("api/records?machine=M-01&machine=M-02")]
    [InlineData("api/findings?verdict=bad")]
    [InlineData("api/units?latest=yes")]
    [InlineData("api/exports/findings.csv?severity=high")]
    [InlineData("api/exports/records.jsonl?nonsense=1")]
    [InlineData("api/exports/documents.jsonl?nonsense=1")]
    public async Task Query_ThatSaysNothing_IsRefusedWithWhatIsAccepted(string path)
    {
        using var answer = await _run.GetAsync(path);

        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        Assert.NotEqual("", (await ServiceRun.JsonAsync(answer)).GetProperty("accepted").GetString());
    }

    [Fact]
    public async Task Findings_OfOneVerdict_NameTheirRecord()
    {
        var items = (await _run.Typed.ListFindingsAsync(verdict: "not-met")).Items;

        Assert.NotEmpty(items);
        Assert.All(items, item => Assert.Equal("J-2", item.Record));
    }

    [Fact]
    public async Task Units_LatestOnly_StandOnceEach()
    {
        var units = (await _run.Typed.ListUnitsAsync(latest: "only")).Items;

        Assert.Equal(
            ["U-02-1", "U-02-2", "U-02-3"],
            units.Select(unit => unit.Unit).Order(StringComparer.Ordinal)
        );
    }

    [Fact]
    public async Task Export_JsonLines_HasALineForEachRow()
    {
        var lines = Lines(await TypedRecord.TextAsync(_run.Typed.ExportRecordsLinesAsync()));

        Assert.Equal(
            ["J-1", "J-2", "J-3"],
            lines.Select(line => JsonSerializer.Deserialize<ToldRecord>(line)!.Id)
        );
    }

    [Fact]
    public async Task Export_Documents_AreThoseThatWereFiled()
    {
        var lines = Lines(await TypedRecord.TextAsync(_run.Typed.ExportDocumentsAsync()));

        Assert.Equal(3, lines.Length);
        var first = JsonDocument.Parse(lines[0]).RootElement;
        Assert.Equal("service-record/1", first.GetProperty("record").GetProperty("format").GetString());
        Assert.Equal("assessment/1", first.GetProperty("assessment").GetProperty("format").GetString());
    }

    private static string[] Lines(string text) => text.TrimEnd('\n').Split('\n');

    [Fact]
    public async Task Export_Csv_HasAHeadAndARowForEach()
    {
        using var answer = await _run.GetAsync("api/exports/records.csv");
        var text = await answer.Content.ReadAsStringAsync();
        var lines = text.TrimEnd().Split("\r\n");

        Assert.Equal("text/csv", answer.Content.Headers.ContentType!.MediaType);
        Assert.StartsWith("id,entry,day,site,machine,area,", lines[0], StringComparison.Ordinal);
        Assert.Equal(4, lines.Length);
        Assert.StartsWith("J-1,", lines[1], StringComparison.Ordinal);
    }

    [Fact]
    public async Task Answers_OfTheirKinds_AreAsTheirSchemasSay()
    {
        var description = JsonNode.Parse(await _run.TextAsync("openapi/v1.json"))!;
        var definitions = description["components"]!["schemas"]!
            .ToJsonString()
            .Replace("#/components/schemas/", "#/$defs/", StringComparison.Ordinal);
        foreach (
            var (path, schema) in new[]
            {
                ("api/records/J-3", "RecordAnswer"),
                ("api/records?from=x", "ProblemDocument"),
            }
        )
        {
            using var answer = await _run.GetAsync(path);
            using var body = JsonDocument.Parse(await answer.Content.ReadAsByteArrayAsync());
            var root = $"{{ \"$ref\": \"#/$defs/{schema}\", \"$defs\": {definitions} }}";
            var result = Json
                .Schema.JsonSchema.FromText(root)
                .Evaluate(body.RootElement, new() { OutputFormat = Json.Schema.OutputFormat.List });
            Assert.True(
                result.IsValid,
                path + Encoding.UTF8.GetString(JsonSerializer.SerializeToUtf8Bytes(result))
            );
        }
    }
}
