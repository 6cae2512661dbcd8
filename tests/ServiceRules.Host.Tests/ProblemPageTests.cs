using System.Net;
using System.Net.Http.Headers;
using Microsoft.Extensions.DependencyInjection;
using ServiceRules.Application.Accounts;
using ServiceRules.Host.Accounts;
using ServiceRules.Host.Tests.Accounts;

namespace ServiceRules.Host.Tests;

/// <summary>What a browser is answered where a program gets a problem document.</summary>
public sealed class ProblemPageTests(SharedService shared) : IClassFixture<SharedService>
{
    private readonly ServiceRun _run = shared.Run;

    private async Task<HttpResponseMessage> AskAsync(
        HttpClient client,
        HttpMethod method,
        string path,
        HttpContent? body = null
    )
    {
        using var request = new HttpRequestMessage(method, path) { Content = body };
        request.Headers.Accept.ParseAdd("text/html,application/xhtml+xml;q=0.9,*/*;q=0.8");
        return await client.SendAsync(request);
    }

    private static async Task<string> PageAsync(HttpResponseMessage answer)
    {
        Assert.Equal("text/html", answer.Content.Headers.ContentType?.MediaType);
        var page = WebUtility.HtmlDecode(await answer.Content.ReadAsStringAsync());
        Assert.Contains("href=\"/\"", page, StringComparison.Ordinal);
        Assert.DoesNotContain("<script", page, StringComparison.Ordinal);
        return page;
    }

    [Theory]
    [InlineData("records/J-none", 404, "no record `J-none` is filed here")]
    [InlineData("nothing", 404, "no such address")]
    public async Task Page_OfNothing_IsToldByAPageWithTheSameWords(string path, int status, string told)
    {
        using var page = await AskAsync(_run.Client, HttpMethod.Get, path);
        using var document = await _run.GetAsync(path);

        Assert.Equal(status, (int)page.StatusCode);
        Assert.Contains(told, await PageAsync(page), StringComparison.OrdinalIgnoreCase);
        Assert.Equal(status, (int)document.StatusCode);
        Assert.Equal("application/problem+json", document.Content.Headers.ContentType?.MediaType);
        Assert.Contains(told, await document.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        Assert.Contains("Accept", document.Headers.Vary);
    }

    [Fact]
    public async Task Page_ThatTheRolesDoNotOpen_IsToldByAPage()
    {
        using var officer = _run.ClientWith(_run.NewKey(Roles.Officer));

        using var answer = await AskAsync(officer, HttpMethod.Get, "people");

        Assert.Equal(HttpStatusCode.Forbidden, answer.StatusCode);
        Assert.Contains("Whoever asks may not", await PageAsync(answer), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Report_TooLarge_IsToldByAPage()
    {
        using var form = new MultipartFormDataContent();
        using var part = new ByteArrayContent(new byte[ServiceLimits.ReportBytes + 64 * 1024]);
        form.Add(part, "report", "large.pdf");
        using var request = new HttpRequestMessage(HttpMethod.Post, "verify") { Content = form };
        request.Headers.Accept.Add(new MediaTypeWithQualityHeaderValue("text/html"));
        // Else it is refused while it is sent.
        request.Headers.ExpectContinue = true;

        using var answer = await _run.Client.SendAsync(request);

        Assert.Equal(HttpStatusCode.RequestEntityTooLarge, answer.StatusCode);
        Assert.Contains("smaller file", await PageAsync(answer), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Program_ThatSendsJsonAndNamesPages_StillGetsADocument()
    {
        using var body = new StringContent("{", new MediaTypeHeaderValue("application/json"));

        using var answer = await AskAsync(_run.Client, HttpMethod.Post, "api/records", body);

        Assert.Equal("application/problem+json", answer.Content.Headers.ContentType?.MediaType);
    }

    [Fact]
    public async Task Form_SentAfterTheSessionEnded_IsKeptAndSentAgainAfterSigningIn()
    {
        using var browser = new Browser(_run);
        await SignInAsync(browser, "kept");
        var token = await browser.TokenAsync("bench");
        using (var outside = await browser.SendAsync("account", "account/sign-out"))
        {
            Assert.Equal(303, (int)outside.StatusCode);
        }

        (string, string)[] fields =
        [
            ("__RequestVerificationToken", token),
            ("record", "{ \"id\": \"<b>J-kept</b>\" }"),
            ("do", "submit"),
        ];
        browser.AcceptPages();
        using var ended = await browser.SendBareAsync("bench", fields);

        Assert.Equal(HttpStatusCode.Unauthorized, ended.StatusCode);
        var raw = await ended.Content.ReadAsStringAsync();
        Assert.Contains("href=\"/sign-in?then=%2Fbench\"", raw, StringComparison.Ordinal);
        Assert.Contains("&lt;b&gt;J-kept", raw, StringComparison.Ordinal);
        Assert.True(ended.Headers.CacheControl!.NoStore);

        await SignInAsync(browser, "kept");
        using var again = await browser.SendBareAsync("bench", fields);
        Assert.Equal(HttpStatusCode.OK, again.StatusCode);
        Assert.Contains("J-kept", await again.Content.ReadAsStringAsync(), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("holds", "%2Fholds", "reason", 303)]
    [InlineData("records/J-none/comments", "%2Frecords%2FJ-none", "text", 404)]
    [InlineData("records/J-none/holds/H-1/lift", "%2Frecords%2FJ-none", "reason", 404)]
    [InlineData("waivers", "%2Fwaivers", "reason", 422)]
    public async Task Form_OfACommentOrAHold_IsKeptWhenTheSessionEnded(
        string form,
        string page,
        string field,
        int status
    )
    {
        using var browser = new Browser(_run);
        var name = "kept-" + form.Replace('/', '-');
        await SignInAsync(browser, name);
        var token = await browser.TokenAsync("holds");
        using var outside = await browser.SendAsync("account", "account/sign-out");
        Assert.Equal(303, (int)outside.StatusCode);
        (string, string)[] fields =
        [
            ("__RequestVerificationToken", token),
            ("record", "J-none"),
            (field, "asked for by <the> insurer"),
            ("by", "officer-01"),
        ];
        browser.AcceptPages();

        using var ended = await browser.SendBareAsync(form, fields);

        Assert.Equal(HttpStatusCode.Unauthorized, ended.StatusCode);
        var raw = await ended.Content.ReadAsStringAsync();
        Assert.Contains($"href=\"/sign-in?then={page}\"", raw, StringComparison.Ordinal);
        Assert.Contains($"action=\"/{form}\"", raw, StringComparison.Ordinal);
        Assert.Contains("asked for by &lt;the&gt; insurer", raw, StringComparison.Ordinal);
        Assert.Contains("Send it again", raw, StringComparison.Ordinal);
        await SignInAsync(browser, name);
        using var again = await browser.SendBareAsync(form, fields);
        Assert.Equal(status, (int)again.StatusCode);
    }

    [Fact]
    public async Task Form_ThatWasShownToAnotherAccount_IsToldAsSuchAndNoRoleIsAdvised()
    {
        using var browser = new Browser(_run);
        await SignInAsync(browser, "shown-first");
        var token = await browser.TokenAsync("holds");
        using var outside = await browser.SendAsync("account", "account/sign-out");
        await SignInAsync(browser, "shown-then");
        browser.AcceptPages();

        using var answer = await browser.SendBareAsync(
            "holds",
            ("__RequestVerificationToken", token),
            ("record", "J-none"),
            ("reason", "x"),
            ("by", "officer-01")
        );

        Assert.Equal(HttpStatusCode.Forbidden, answer.StatusCode);
        var page = await PageAsync(answer);
        Assert.Contains("The form is of no page that this account was shown", page, StringComparison.Ordinal);
        Assert.Contains("Nothing was stored. Open its page here again", page, StringComparison.Ordinal);
        Assert.DoesNotContain("other roles", page, StringComparison.Ordinal);
        Assert.DoesNotContain("page of another site may not", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Menu_ShowsWhatTheRolesOpen()
    {
        using var administrator = _run.ClientWith(_run.NewKey(Roles.Administrator));
        using var technician = _run.ClientWith(_run.NewKey(Roles.Technician, "tech-01"));

        var of = await administrator.GetStringAsync(new Uri("", UriKind.Relative));
        var other = await technician.GetStringAsync(new Uri("", UriKind.Relative));

        Assert.DoesNotContain("href=\"/bench\"", of, StringComparison.Ordinal);
        Assert.DoesNotContain("href=\"/records\"", of, StringComparison.Ordinal);
        Assert.Contains("href=\"/people\"", of, StringComparison.Ordinal);
        Assert.Contains("href=\"/bench\"", other, StringComparison.Ordinal);
        Assert.DoesNotContain("href=\"/people\"", other, StringComparison.Ordinal);
    }

    private async Task SignInAsync(Browser browser, string name)
    {
        string password;
        await using (var scope = _run.Service.Services.CreateAsyncScope())
        {
            password = await scope
                .ServiceProvider.GetRequiredService<AccountDesk>()
                .PutAsync(name, Roles.Lead, null, AccountAct.Machine);
        }

        Assert.Equal(303, await browser.SignInAsync(name, password));
    }
}
