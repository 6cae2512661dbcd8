using System.Net;
using System.Text;
using System.Text.Json;

namespace ServiceRules.Host.Tests;

public sealed class AskedExactlyTests(FiledShop shop) : IClassFixture<FiledShop>
{
    private readonly ServiceRun _run = shop.Run;

    private async Task<(int Status, JsonElement Body)> PostAsync(
        string path,
        string body = "",
        string? header = null,
        string type = "application/json"
    )
    {
        using var answer = await _run.PostAsync(
            path,
            Encoding.UTF8.GetBytes(body),
            request =>
            {
                request.Content!.Headers.ContentType = new(type);
                Assert.True(header is null || request.Headers.TryAddWithoutValidation(header, "\"k\""));
            }
        );
        return ((int)answer.StatusCode, await ServiceRun.JsonAsync(answer));
    }

    [Theory]
    [InlineData("api/holds?by=officer-01&reason=x", """{ "format": "hold/1", "record": "J-1" }""")]
    [InlineData("api/holds/H-1/lift?by=officer-01&reason=x", "")]
    [InlineData(
        "api/records/J-1/comments?by=officer-01",
        """{ "format": "comment/1", "record": "J-1", "text": "x" }"""
    )]
    [InlineData("api/people/tech-05/erasure?by=officer-01&reason=x", "")]
    [InlineData("api/exports", """{ "format": "export-request/1", "what": "records", "as": "csv" }""")]
    [InlineData("api/packs", "")]
    [InlineData("api/packs/check", "")]
    [InlineData("api/packs/sha256:0/activation?by=lead-01&reason=x", "")]
    [InlineData("api/judgements", "{}")]
    [InlineData("api/verifications", "")]
    [InlineData("api/notices/x/retry", "")]
    public async Task Key_WhereNoneIsTaken_IsRefusedAndNotPassedOver(string path, string body)
    {
        var before = await _run.TextAsync("api/ledger/checkpoint");

        var type =
            path.StartsWith("api/packs", StringComparison.Ordinal) ? "application/zip"
            : path == "api/verifications" ? "application/pdf"
            : "application/json";
        var (status, told) = await PostAsync(path, body, "Idempotency-Key", type);

        Assert.Equal(400, status);
        Assert.StartsWith(
            "Idempotency-Key:",
            told.GetProperty("detail").GetString(),
            StringComparison.Ordinal
        );
        Assert.Equal(before, await _run.TextAsync("api/ledger/checkpoint"));
    }

    [Theory]
    [InlineData("api/records", "If-Match")]
    [InlineData("api/records", "If-None-Match")]
    [InlineData("api/records/J-1/amendments?by=lead-01&reason=x", "If-Unmodified-Since")]
    public async Task Condition_WhereNoneIsHeldAgainstAnything_IsRefused(string path, string header)
    {
        var (status, told) = await PostAsync(
            path,
            Encoding.UTF8.GetString(ServiceRun.Record("height-check", [("F-height-check", "J-1")])),
            header
        );

        Assert.Equal(400, status);
        Assert.StartsWith(header + ":", told.GetProperty("detail").GetString(), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("api/records?bogus=1", "bogus:")]
    [InlineData("api/records?by=tech-02&by=tech-01", "by:")]
    [InlineData("api/judgements?bogus=1", "bogus:")]
    [InlineData("api/exports?site=x", "site:")]
    [InlineData("api/people/tech-05/erasure?by=officer-01&reason=x&contents=maybe", "contents:")]
    [InlineData("api/people/tech-05/erasure?by=officer-01&reason=x&content=true", "content:")]
    [InlineData("api/packs/sha256:0/comparison?newest=ten", "newest:")]
    public async Task Query_OfAPostThatCannotBeRead_IsRefusedByName(string path, string named)
    {
        var (status, told) = await PostAsync(path);

        Assert.Equal(400, status);
        Assert.StartsWith(named, told.GetProperty("detail").GetString(), StringComparison.Ordinal);
        Assert.NotEmpty(told.GetProperty("accepted").GetString()!);
    }

    [Theory]
    [InlineData("api/ledger/growth?from=x", "from: found `x`")]
    [InlineData("api/ledger/growth", "from: it is needed")]
    public async Task Number_ThatIsNone_IsRefusedByName(string path, string told)
    {
        using var answer = await _run.GetAsync(path);

        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        Assert.Equal(told, (await ServiceRun.JsonAsync(answer)).GetProperty("detail").GetString());
    }

    [Theory]
    [InlineData("application/json; charset=utf-8", 200)]
    [InlineData("application/json; charset=\"utf-8\"", 200)]
    [InlineData("application/json; charset=\"UTF-8\"", 200)]
    [InlineData("application/json; charset=\"utf-16\"", 415)]
    public async Task Charset_InQuotesOrNot_IsTheSame(string type, int status)
    {
        using var answer = await _run.PostAsync(
            "api/judgements",
            ServiceRun.Record("height-check"),
            request =>
            {
                _ = request.Content!.Headers.Remove("Content-Type");
                Assert.True(request.Content.Headers.TryAddWithoutValidation("Content-Type", type));
            }
        );

        Assert.Equal(status, (int)answer.StatusCode);
    }

    [Theory]
    [InlineData("api/records")]
    [InlineData("api/units")]
    [InlineData("api/findings")]
    [InlineData("api/exports/records.csv")]
    [InlineData("api/exports/findings.jsonl")]
    [InlineData("api/exports/documents.jsonl")]
    public async Task List_OfASiteThatIsNotThere_IsRefused(string path)
    {
        using var wrong = await _run.GetAsync(path + "?site=Zzz");
        using var right = await _run.GetAsync(path + "?site=Alder%20Reach%20Parks%20Trust");

        Assert.Equal(HttpStatusCode.BadRequest, wrong.StatusCode);
        Assert.StartsWith(
            "site: `Zzz`",
            (await ServiceRun.JsonAsync(wrong)).GetProperty("detail").GetString(),
            StringComparison.Ordinal
        );
        Assert.Equal(HttpStatusCode.OK, right.StatusCode);
        Assert.Contains("J-3", await right.Content.ReadAsStringAsync(), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("Zzz", 400)]
    [InlineData("Alder Reach Parks Trust", 202)]
    public async Task Export_OfASite_IsRefusedWhereItIsNotThere(string site, int status)
    {
        var (answered, _) = await PostAsync(
            "api/exports",
            $$"""{ "format": "export-request/1", "what": "records", "as": "csv", "filter": { "site": "{{site}}" } }"""
        );

        Assert.Equal(status, answered);
    }
}
