using System.Net;
using System.Net.Sockets;
using System.Text;
using System.Text.Json;
using ServiceRules.Application.Ledger;
using ServiceRules.Host.Problems;
using ServiceRules.TestKit;

namespace ServiceRules.Host.Tests;

/// <summary>Whatever is sent, the answer is a problem document, tells no insides, and is never the service's own failure.</summary>
public sealed class ProblemTests(SharedService shared) : IClassFixture<SharedService>
{
    private readonly ServiceRun _run = shared.Run;

    public static TheoryData<string, string, string, string, int, string> Matrix =>
        new()
        {
            { "GET", "/api/nothing", "", "", 404, "not-found" },
            { "GET", "/api/records/J-none", "", "", 404, "not-found" },
            { "GET", "/api/records/J-none/report", "", "", 404, "not-found" },
            { "GET", "/api/records/..%2F..%2Fetc%2Fpasswd", "", "", 404, "not-found" },
            { "GET", "/api/ledger/entries/99999999", "", "", 404, "not-found" },
            { "GET", "/api/ledger/entries/-1", "", "", 404, "not-found" },
            { "GET", "/api/ledger/entries/x", "", "", 404, "not-found" },
            { "GET", "/api/ledger/growth?from=99999999", "", "", 404, "not-found" },
            { "GET", "/api/ledger/growth?from=x", "", "", 400, "bad-request" },
            { "GET", "/api/ledger/growth", "", "", 400, "bad-request" },
            { "DELETE", "/api/records", "", "", 405, "method" },
            { "PUT", "/api/records/J-1", "application/json", "{}", 405, "method" },
            { "GET", "/api/judgements", "", "", 405, "method" },
            { "POST", "/api/people", "application/json", "{}", 405, "method" },
            { "POST", "/api/records", "", "{}", 415, "media-type" },
            { "POST", "/api/records", "text/plain", "{}", 415, "media-type" },
            { "POST", "/api/records", "application/xml", "<a/>", 415, "media-type" },
            { "POST", "/api/records", "application/json; charset=utf-16", "{}", 415, "media-type" },
            { "POST", "/api/records", "application/x-www-form-urlencoded", "a=b", 415, "media-type" },
            { "POST", "/api/judgements", "application/json", "", 400, "unreadable" },
            { "POST", "/api/judgements", "application/json", "{", 400, "unreadable" },
            { "POST", "/api/judgements", "application/json", "null", 422, "refused" },
            { "POST", "/api/judgements", "application/json", "[]", 422, "refused" },
            { "POST", "/api/judgements", "application/json", "{\"format\":\"other/1\"}", 422, "refused" },
            {
                "POST",
                "/api/records",
                "application/json",
                "{\"format\":\"service-record/1\"}",
                422,
                "refused"
            },
            { "POST", "/api/records?by=nobody-here", "application/json", "{}", 422, "refused" },
        };

    [Fact]
    public void Overtaken_AgainAndAgain_IsToldAsThat()
    {
        var (kind, detail) = StoreProblem.Of(StoreTrouble.Overtaken);

        Assert.Equal("busy", kind.Name);
        Assert.Contains("other rules came into force, or other waivers", detail, StringComparison.Ordinal);
    }

    [Theory]
    [MemberData(nameof(Matrix))]
    public async Task Answer_ToWhatDoesNotGo_IsAProblemDocument(
        string method,
        string path,
        string type,
        string body,
        int status,
        string kind
    )
    {
        using var request = new HttpRequestMessage(new HttpMethod(method), path);
        if (method is "POST" or "PUT")
        {
            request.Content = new ByteArrayContent(Encoding.UTF8.GetBytes(body));
            if (type.Length > 0)
            {
                request.Content.Headers.TryAddWithoutValidation("Content-Type", type);
            }
        }

        using var answer = await _run.Client.SendAsync(request);

        var problem = await ProblemAsync(answer, status);
        Assert.Equal("/api#problem-" + kind, problem.GetProperty("type").GetString());
        if (status == 415)
        {
            var detail = problem.GetProperty("detail").GetString();
            Assert.Contains("accepted: application/json", detail, StringComparison.Ordinal);
            Assert.Contains(
                type.Length > 0 ? type : "without Content-Type",
                detail,
                StringComparison.Ordinal
            );
        }
    }

    [Fact]
    public async Task Answer_ToARefusedDocument_TellsEveryProblemWithItsPlace()
    {
        var body = """
            { "format": "service-record/1", "id": "J-1", "date": "2026-13-40", "nonsense": 1,
              "machine": { "id": "M-02" }, "tasks": [], "people": [], "units": "none" }
            """;

        using var answer = await _run.PostAsync("api/records", Encoding.UTF8.GetBytes(body));

        var problem = await ProblemAsync(answer, 422);
        var told = problem.GetProperty("problems").EnumerateArray().ToList();
        Assert.Equal(
            ["/date", "/nonsense", "/people", "/tasks", "/units"],
            told.Select(one => one.GetProperty("pointer").GetString()!).Order(StringComparer.Ordinal)
        );
        var date = told.Single(one => one.GetProperty("pointer").GetString() == "/date");
        Assert.Equal(1, date.GetProperty("line").GetInt32());
        Assert.Equal(54, date.GetProperty("column").GetInt32());
        Assert.Equal("2026-13-40", date.GetProperty("found").GetString());
        Assert.NotEqual("", date.GetProperty("accepted").GetString());
    }

    [Fact]
    public async Task Answer_ToTheJsonParsingFiles_IsNeverAFailureAndAcceptsNoBrokenOne()
    {
        var folder = ReferenceFiles.At("evidence", "json-parsing", "test_parsing");
        var files = Directory.GetFiles(folder);

        Assert.Equal(318, files.Length);
        foreach (var file in files)
        {
            using var answer = await _run.PostAsync("api/records", await File.ReadAllBytesAsync(file));
            var status = (int)answer.StatusCode;
            var name = Path.GetFileName(file);
            // None of them is a service record, so that those with sound JSON are refused as well.
            Assert.True(
                name.StartsWith("n_", StringComparison.Ordinal) ? status == 400
                    : name.StartsWith("y_", StringComparison.Ordinal) ? status is 400 or 422
                    : status is 400 or 422,
                $"{name}: {status}"
            );
        }
    }

    [Fact]
    public async Task Answer_ToDeepNestingAndLongTexts_ComesEarly()
    {
        string[] bodies =
        [
            new('[', 1_000_000),
            string.Concat(Enumerable.Repeat("{\"a\":", 200_000)),
            $"{{\"format\":\"service-record/1\",\"id\":\"{new string('x', 2_000_000)}\"}}",
            $"{{\"format\":\"service-record/1\",\"{new string('x', 2_000_000)}\":1}}",
            $"[{string.Join(',', Enumerable.Repeat("1", 1_000_000))}]",
        ];

        foreach (var body in bodies)
        {
            using var answer = await _run.PostAsync("api/records", Encoding.UTF8.GetBytes(body));
            Assert.InRange((int)answer.StatusCode, 400, 422);
            Assert.InRange((await answer.Content.ReadAsByteArrayAsync()).Length, 1, 200_000);
        }
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task Answer_ToABodyOverTheBound_IsTooLarge(bool isChunked)
    {
        using var request = new HttpRequestMessage(HttpMethod.Post, "api/records")
        {
            Content = new ByteArrayContent(new byte[(2 * 1024 * 1024) + 1]),
        };
        request.Content.Headers.ContentType = new("application/json");
        request.Headers.TransferEncodingChunked = isChunked;
        // Refused before it is sent, where its length is told.
        request.Headers.ExpectContinue = !isChunked;

        using var answer = await _run.Client.SendAsync(request);

        var problem = await ProblemAsync(answer, 413);
        Assert.Contains("2097152", problem.GetProperty("detail").GetString(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Answer_ToABodyThatDoesNotArrive_IsTooSlow()
    {
        using var client = new TcpClient();
        await client.ConnectAsync(IPAddress.Loopback, _run.Service.Address.Port);
        var stream = client.GetStream();
        await stream.WriteAsync(
            System.Text.Encoding.ASCII.GetBytes(
                $"POST /api/records HTTP/1.1\r\nHost: localhost\r\nAuthorization: Bearer {_run.Key}\r\n"
                    + "Content-Type: application/json\r\nContent-Length: 1000\r\n\r\n{"
            )
        );

        using var reader = new StreamReader(stream);
        var text = await reader.ReadToEndAsync();

        Assert.StartsWith("HTTP/1.1 408", text, StringComparison.Ordinal);
        Assert.Contains("/api#problem-slow", text, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("Host", "shop.example")]
    [InlineData("Origin", "https://shop.example")]
    [InlineData("Sec-Fetch-Site", "cross-site")]
    [InlineData("Sec-Fetch-Site", "same-site")]
    public async Task Answer_ToAPageOfAnotherSite_IsARefusal(string header, string value)
    {
        using var answer = await _run.PostAsync(
            "api/records",
            ServiceRun.Record("height-check", ("F-height-check", "J-of-another-site")),
            request => request.Headers.TryAddWithoutValidation(header, value)
        );

        Assert.Contains((int)answer.StatusCode, new[] { 400, 403 });
        using var absent = await _run.GetAsync("api/records/J-of-another-site");
        Assert.Equal(HttpStatusCode.NotFound, absent.StatusCode);
    }

    [Theory]
    [InlineData("/")]
    [InlineData("/api")]
    [InlineData("/style.css")]
    [InlineData("/openapi/v1.json")]
    [InlineData("/health/ready")]
    [InlineData("/api/people")]
    [InlineData("/api/nothing")]
    public async Task Answer_Any_TellsBrowsersWhatTheyMayDo(string path)
    {
        using var answer = await _run.GetAsync(path);

        Assert.Contains(
            "default-src 'none'",
            string.Join(' ', answer.Headers.GetValues("Content-Security-Policy")),
            StringComparison.Ordinal
        );
        Assert.Equal("nosniff", string.Join(' ', answer.Headers.GetValues("X-Content-Type-Options")));
        Assert.False(answer.Headers.Contains("Server"));
        Assert.True(answer.Headers.Contains("Cache-Control"));
    }

    [Fact]
    public async Task Answer_ToMoreThanOneAddressMaySend_AsksToWait()
    {
        await using var run = await ServiceRun.StartAsync(change: settings =>
            settings with
            {
                Limits = settings.Limits with { RequestsAtOnce = 3, RequestsPerSecond = 1 },
            }
        );
        var answers = new List<HttpResponseMessage>();
        for (var times = 0; times < 6; times++)
        {
            answers.Add(await run.GetAsync("api/people"));
        }

        var turnedAway = answers.Where(answer => (int)answer.StatusCode == 429).ToList();
        Assert.NotEmpty(turnedAway);
        _ = await ProblemAsync(turnedAway[0], 429);
        Assert.True(turnedAway[0].Headers.Contains("Retry-After"));
        Assert.Equal(HttpStatusCode.OK, (await run.GetAsync("health/live")).StatusCode);
    }

    private static async Task<JsonElement> ProblemAsync(HttpResponseMessage answer, int status)
    {
        var text = await answer.Content.ReadAsStringAsync();
        Assert.True(status == (int)answer.StatusCode, $"{(int)answer.StatusCode}: {text}");
        Assert.Equal("application/problem+json", answer.Content.Headers.ContentType?.MediaType);
        Assert.DoesNotContain("   at ", text, StringComparison.Ordinal);
        Assert.DoesNotContain("Exception", text, StringComparison.Ordinal);
        using var document = JsonDocument.Parse(text);
        var problem = document.RootElement.Clone();
        Assert.Equal(status, problem.GetProperty("status").GetInt32());
        Assert.NotEqual("", problem.GetProperty("title").GetString());
        Assert.NotEqual("", problem.GetProperty("detail").GetString());
        return problem;
    }
}
