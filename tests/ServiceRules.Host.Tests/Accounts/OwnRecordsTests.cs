using System.Net.Http.Headers;
using System.Text.Json;
using ServiceRules.Application.Accounts;

namespace ServiceRules.Host.Tests.Accounts;

/// <summary>The jobs of the shop name tech-02 and nobody else.</summary>
public sealed class OwnRecordsTests(FiledShop shop) : IClassFixture<FiledShop>
{
    private readonly ServiceRun _run = shop.Run;

    private HttpClient As(string person) => _run.ClientWith(_run.NewKey(Roles.Technician, person));

    private static async Task<(int Status, JsonElement Body)> SendAsync(
        HttpClient client,
        byte[] record,
        string query = "",
        string? idempotency = null
    )
    {
        using var request = new HttpRequestMessage(
            HttpMethod.Post,
            new Uri("api/records" + query, UriKind.Relative)
        )
        {
            Content = new ByteArrayContent(record)
            {
                Headers = { ContentType = new MediaTypeHeaderValue("application/json") },
            },
        };
        if (idempotency is not null)
        {
            Assert.True(request.Headers.TryAddWithoutValidation("Idempotency-Key", idempotency));
        }

        using var answer = await client.SendAsync(request);
        return ((int)answer.StatusCode, await ServiceRun.JsonAsync(answer));
    }

    private static byte[] Record(string id, params (string, string)[] changes) =>
        ServiceRun.Record("height-check", [("F-height-check", id), .. changes]);

    [Theory]
    [InlineData("api/records/J-1")]
    [InlineData("api/records/J-1/report")]
    [InlineData("api/records/J-1/report/proof")]
    [InlineData("records/J-1")]
    public async Task Record_OfOthers_IsAnsweredForLikeOneThatIsNotThere(string path)
    {
        using var own = As("tech-02");
        using var other = As("tech-01");

        using var seen = await own.GetAsync(new Uri(path, UriKind.Relative));
        using var hidden = await other.GetAsync(new Uri(path, UriKind.Relative));
        using var absent = await other.GetAsync(
            new Uri(path.Replace("J-1", "J-0", StringComparison.Ordinal), UriKind.Relative)
        );

        Assert.Equal(200, (int)seen.StatusCode);
        Assert.Equal(404, (int)hidden.StatusCode);
        Assert.Equal(
            (await absent.Content.ReadAsStringAsync()).Replace("J-0", "J-1", StringComparison.Ordinal),
            await hidden.Content.ReadAsStringAsync()
        );
    }

    [Theory]
    [InlineData("api/records")]
    [InlineData("records")]
    public async Task List_OfATechnician_HoldsOwnRecordsAlone(string path)
    {
        using var own = As("tech-02");
        using var other = As("tech-01");

        Assert.Contains(
            "J-2",
            await own.GetStringAsync(new Uri(path, UriKind.Relative)),
            StringComparison.Ordinal
        );
        Assert.DoesNotContain(
            "J-2",
            await other.GetStringAsync(new Uri(path, UriKind.Relative)),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public async Task Submit_RecordThatDoesNotNameTheTechnician_IsNotAllowedAndNothingIsFiled()
    {
        using var other = As("tech-01");

        var (status, _) = await SendAsync(other, Record("J-of-tech-02"));

        Assert.Equal(403, status);
        using var absent = await _run.GetAsync("api/records/J-of-tech-02");
        Assert.Equal(404, (int)absent.StatusCode);
    }

    [Fact]
    public async Task Submit_UnderTheIdentityOfOthers_TellsNothingOfTheirs()
    {
        using var other = As("tech-01");

        var (status, body) = await SendAsync(other, Record("J-2", ("tech-02", "tech-01")));

        Assert.Equal(409, status);
        Assert.False(body.TryGetProperty("differences", out _));
        Assert.DoesNotContain("4.90", body.GetRawText(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Submit_InTheNameOfSomebodyElse_IsNotAllowed()
    {
        using var own = As("tech-02");

        Assert.Equal(403, (await SendAsync(own, Record("J-named"), "?by=lead-01")).Status);
        Assert.Equal(201, (await SendAsync(own, Record("J-named"), "?by=tech-02")).Status);
    }

    [Fact]
    public async Task Amend_InTheNameOfAnotherLead_IsNotAllowed()
    {
        using var lead = _run.ClientWith(_run.NewKey(Roles.Lead, "tech-03"));
        using var body = new ByteArrayContent(Record("J-1"));
        body.Headers.ContentType = new("application/json");

        using var answer = await lead.PostAsync(
            new Uri("api/records/J-1/amendments?by=lead-01&reason=x", UriKind.Relative),
            body
        );

        Assert.Equal(403, (int)answer.StatusCode);
    }

    [Fact]
    public async Task Bench_RecordOfOthers_IsNotFiled()
    {
        using var other = As("tech-01");
        using var form = new FormUrlEncodedContent([
            new("record", System.Text.Encoding.UTF8.GetString(Record("J-bench-other"))),
            new("do", "submit"),
        ]);

        using var answer = await other.PostAsync(new Uri("bench", UriKind.Relative), form);

        Assert.Contains("does not name", await answer.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        using var absent = await _run.GetAsync("api/records/J-bench-other");
        Assert.Equal(404, (int)absent.StatusCode);
    }

    [Fact]
    public async Task IdempotencyKey_OfTwoCallers_IsNotTheSame()
    {
        using var one = _run.ClientWith(_run.NewKey(Roles.Lead));
        using var two = _run.ClientWith(_run.NewKey(Roles.Lead));

        Assert.Equal(201, (await SendAsync(one, Record("J-key-1"), "", "\"same\"")).Status);
        Assert.Equal(201, (await SendAsync(two, Record("J-key-2"), "", "\"same\"")).Status);
        Assert.Equal(422, (await SendAsync(one, Record("J-key-3"), "", "\"same\"")).Status);
    }
}
