using System.Net;
using System.Net.Http.Headers;
using System.Text;
using ServiceRules.Application.Accounts;
using ServiceRules.Client;
using ServiceRules.Host.Tests.Clients;

namespace ServiceRules.Host.Tests;

/// <summary>Reports that somebody holds: genuine, changed, superseded, of another key, or none at all.</summary>
public sealed class VerifyTests(FiledShop shop) : IClassFixture<FiledShop>
{
    private readonly ServiceRun _run = shop.Run;

    private Task<byte[]> ReportAsync(string id) => TypedRecord.BytesAsync(_run.Typed.ReadReportAsync(id));

    private async Task<HttpResponseMessage> PostAsync(byte[] file, string kind = "application/pdf")
    {
        using var request = new HttpRequestMessage(HttpMethod.Post, "api/verifications")
        {
            Content = new ByteArrayContent(file),
        };
        request.Content.Headers.ContentType = new MediaTypeHeaderValue(kind);
        // What is refused for its size is refused before it is sent.
        request.Headers.ExpectContinue = true;
        return await _run.Client.SendAsync(request);
    }

    private async Task<VerificationAnswer> LookAsync(byte[] file)
    {
        using var sent = new MemoryStream(file);
        return await _run.Typed.VerifyAsync(sent);
    }

    private async Task<string> PageAsync(byte[] file, string name = "report.pdf", HttpClient? client = null)
    {
        using var form = new MultipartFormDataContent();
        using var part = new ByteArrayContent(file);
        form.Add(part, "report", name);

        using var answer = await (client ?? _run.Client).PostAsync(new Uri("verify", UriKind.Relative), form);
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        return WebUtility.HtmlDecode(await answer.Content.ReadAsStringAsync());
    }

    [Fact]
    public async Task Report_IssuedHere_IsGenuineAndStandsInTheLog()
    {
        var answer = await LookAsync(await ReportAsync("J-1"));

        Assert.Equal("genuine", answer.Standing);
        Assert.All(
            answer.Points,
            point => Assert.Contains(point.Result, (string[])["passed", "not-claimed"])
        );
        Assert.Equal("J-1", answer.Here!.Record);
        Assert.Null(answer.Here.SupersededBy);
    }

    [Fact]
    public async Task Report_WithOneByteChanged_IsNotGenuineAndNotFiled()
    {
        var report = await ReportAsync("J-1");
        report[report.Length / 2] ^= 1;

        var answer = await LookAsync(report);

        Assert.Equal("not-genuine", answer.Standing);
        Assert.Null(answer.Here);
        Assert.Contains("Not genuine", await PageAsync(report), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Report_OfAnEarlierVersion_IsGenuineAndToldToBeSuperseded()
    {
        var job = ServiceRun.Record(
            "height-check",
            ("F-height-check", "J-super"),
            ("2026-04-13", "2026-06-03")
        );
        using var filed = await _run.PostAsync("api/records", job);
        Assert.Equal(HttpStatusCode.Created, filed.StatusCode);
        var earlier = await ReportAsync("J-super");
        using var amended = await _run.PostAsync(
            "api/records/J-super/amendments?by=lead-01&reason=x",
            Encoding.UTF8.GetBytes(
                Encoding.UTF8.GetString(job).Replace("3.82 mm", "3.84 mm", StringComparison.Ordinal)
            )
        );
        Assert.Equal(HttpStatusCode.Created, amended.StatusCode);

        var answer = await LookAsync(earlier);

        Assert.Equal("genuine", answer.Standing);
        Assert.True(answer.Here!.SupersededBy > 0);
        var page = await PageAsync(earlier);
        Assert.Contains("<h2 id=\"standing\">Genuine, and superseded</h2>", page, StringComparison.Ordinal);
        Assert.Contains("<strong>may go out</strong>", page, StringComparison.Ordinal);
        Assert.Contains("href=\"/records/J-super\"", page, StringComparison.Ordinal);
        using var other = _run.ClientWith(_run.NewKey(Roles.Technician, "tech-01"));
        var unseen = await PageAsync(earlier, client: other);
        Assert.Contains("Genuine, and superseded", unseen, StringComparison.Ordinal);
        Assert.DoesNotContain("may go out", unseen, StringComparison.Ordinal);
        Assert.DoesNotContain("href=\"/records/J-super\"", unseen, StringComparison.Ordinal);
        Assert.DoesNotContain(
            "superseded",
            await PageAsync(await ReportAsync("J-super")),
            StringComparison.Ordinal
        );
    }

    [Fact]
    public async Task Report_OfAnotherService_IsIntactAndItsSignerNotTrusted()
    {
        await using var other = await ServiceRun.StartAsync();
        using var filed = await other.PostAsync("api/records", ServiceRun.Record("height-check"));
        Assert.Equal(HttpStatusCode.Created, filed.StatusCode);
        var report = await other.BytesAsync("api/records/F-height-check/report");

        Assert.Equal("signer-not-trusted", (await LookAsync(report)).Standing);
    }

    [Theory]
    [InlineData("")]
    [InlineData("no report")]
    [InlineData("%PDF-1.7\n%%EOF")]
    public async Task File_ThatIsNoReport_IsAnsweredFor(string text)
    {
        var standing = (await LookAsync(Encoding.ASCII.GetBytes(text))).Standing;

        Assert.Contains(standing, (string[])["unreadable", "not-genuine"]);
    }

    [Fact]
    public async Task Body_OfAnotherKindOrTooLarge_IsRefused()
    {
        using var kind = await PostAsync([1], "application/json");
        using var large = await PostAsync(new byte[ServiceLimits.ReportBytes + 1]);

        Assert.Equal(HttpStatusCode.UnsupportedMediaType, kind.StatusCode);
        Assert.Contains(
            "accepted: application/pdf",
            await kind.Content.ReadAsStringAsync(),
            StringComparison.Ordinal
        );
        Assert.Equal(HttpStatusCode.RequestEntityTooLarge, large.StatusCode);
    }

    [Fact]
    public async Task Page_Report_TellsItGenuinePointByPoint()
    {
        var page = await PageAsync(await ReportAsync("J-2"), "<b>J-2</b>.pdf");

        Assert.Contains("<h2 id=\"standing\">Genuine</h2>", page, StringComparison.Ordinal);
        Assert.Contains("verdict-reproduced", page, StringComparison.Ordinal);
        Assert.Contains("the report of J-2", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Page_WithoutFile_SaysWhatIsTaken() =>
        Assert.Contains("No file was chosen", await PageAsync([]), StringComparison.Ordinal);

    [Fact]
    public async Task Page_FormThatBreaksOff_IsABadRequest()
    {
        using var form = new StringContent("--cut");
        form.Headers.ContentType = MediaTypeHeaderValue.Parse("multipart/form-data; boundary=cut");

        using var answer = await _run.Client.PostAsync(new Uri("verify", UriKind.Relative), form);

        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
    }
}
