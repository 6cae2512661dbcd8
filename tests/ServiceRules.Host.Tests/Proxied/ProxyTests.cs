using System.Net;
using ServiceRules.Host.Notices;
using ServiceRules.Host.Tests.Notices;

namespace ServiceRules.Host.Tests.Proxied;

/// <summary>What a proxy in front says of a request, and what others say in its stead.</summary>
public sealed class ProxyTests
{
    private const string Name = "shop.example";

    private static readonly ProxySettings Here = ProxySettings.Read("127.0.0.1", $"https://{Name}").Settings!;
    private static readonly ProxySettings Other = ProxySettings
        .Read("10.9.9.0/24, 192.0.2.1", $"https://{Name}")
        .Settings!;

    private static readonly (string, string)[] Said =
    [
        ("X-Forwarded-For", "203.0.113.7"),
        ("X-Forwarded-Proto", "https"),
        ("X-Forwarded-Host", Name),
    ];

    private static Task<ServiceRun> StartAsync(ProxySettings proxy, ServiceLimits? limits = null) =>
        ServiceRun.StartAsync(change: settings =>
            settings with
            {
                Proxy = proxy,
                Limits = limits ?? settings.Limits,
            }
        );

    private static async Task<HttpResponseMessage> AskAsync(
        ServiceRun run,
        string path,
        (string Name, string Value)[] headers,
        HttpMethod? method = null
    )
    {
        using var client = run.ClientWith(null);
        using var request = new HttpRequestMessage(method ?? HttpMethod.Get, new Uri(path, UriKind.Relative));
        foreach (var (name, value) in headers)
        {
            if (name == "Host")
            {
                request.Headers.Host = value;
            }
            else
            {
                request.Headers.Add(name, value);
            }
        }

        return await client.SendAsync(request);
    }

    private static string Cookie(HttpResponseMessage answer) =>
        Assert.Single(answer.Headers.GetValues("Set-Cookie"));

    [Fact]
    public async Task Proxy_ThatSaysHttpsAndTheName_IsAnsweredAsOverTls()
    {
        await using var run = await StartAsync(Here);

        using var answer = await AskAsync(run, "sign-in", Said);
        using var ownName = await AskAsync(run, "sign-in", []);

        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        Assert.Contains("; secure", Cookie(answer), StringComparison.OrdinalIgnoreCase);
        Assert.True(answer.Headers.Contains("Strict-Transport-Security"));
        Assert.Equal($"https://{Name}/", run.Service.Asked.ToString());
        // On the machine itself it is asked as before.
        Assert.Equal(HttpStatusCode.OK, ownName.StatusCode);
        Assert.DoesNotContain("; secure", Cookie(ownName), StringComparison.OrdinalIgnoreCase);
    }

    [Fact]
    public async Task Headers_FromElsewhereThanTheProxy_AreNotLookedAt()
    {
        await using var run = await StartAsync(Other);

        using var answer = await AskAsync(run, "sign-in", Said);
        using var named = await AskAsync(run, "sign-in", [("Host", Name), .. Said]);

        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        Assert.DoesNotContain("; secure", Cookie(answer), StringComparison.OrdinalIgnoreCase);
        Assert.False(answer.Headers.Contains("Strict-Transport-Security"));
        Assert.Equal(HttpStatusCode.BadRequest, named.StatusCode);
    }

    [Fact]
    public async Task Headers_WhereNoProxyIsTold_AreNotLookedAt()
    {
        await using var run = await ServiceRun.StartAsync();

        using var answer = await AskAsync(run, "sign-in", Said);
        using var named = await AskAsync(run, "sign-in", [("Host", Name), .. Said]);

        Assert.DoesNotContain("; secure", Cookie(answer), StringComparison.OrdinalIgnoreCase);
        Assert.Equal(HttpStatusCode.BadRequest, named.StatusCode);
    }

    [Theory]
    // By TLS or not, the proxy did not say.
    [InlineData("Host: shop.example; X-Forwarded-For: 203.0.113.7")]
    [InlineData("Host: shop.example; X-Forwarded-For: 203.0.113.7; X-Forwarded-Proto: http")]
    [InlineData("Host: shop.example")]
    // Under which name, the proxy did not say, or another.
    [InlineData("X-Forwarded-For: 203.0.113.7; X-Forwarded-Proto: https")]
    [InlineData("X-Forwarded-Proto: https; X-Forwarded-Host: other.example")]
    [InlineData("X-Forwarded-Proto: https; X-Forwarded-Host: localhost")]
    // The proxy wrote the last one; the one before was sent to it.
    [InlineData("X-Forwarded-Proto: https; X-Forwarded-Host: shop.example, other.example")]
    [InlineData("X-Forwarded-Proto: https, http; X-Forwarded-Host: shop.example")]
    public async Task Proxy_ThatDoesNotSayWhatItShould_IsAnsweredByARefusal(string headers)
    {
        await using var run = await StartAsync(Here);

        using var answer = await AskAsync(
            run,
            "sign-in",
            [.. headers.Split("; ").Select(one => one.Split(": ", 2)).Select(parts => (parts[0], parts[1]))]
        );

        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        Assert.False(answer.Headers.Contains("Set-Cookie"));
    }

    [Fact]
    public async Task Forms_SentByAPageOfThePublicName_AreOfThisSiteAndOthersAreNot()
    {
        await using var run = await StartAsync(Here);

        using var own = await AskAsync(
            run,
            "api/verifications",
            [("Origin", $"https://{Name}"), .. Said],
            HttpMethod.Post
        );
        using var other = await AskAsync(
            run,
            "api/verifications",
            [("Origin", "https://other.example"), .. Said],
            HttpMethod.Post
        );

        Assert.Equal(HttpStatusCode.Unauthorized, own.StatusCode);
        Assert.Equal(HttpStatusCode.Forbidden, other.StatusCode);
    }

    [Fact]
    public async Task Limit_OfRequests_IsOfWhoeverAsksTheProxyWhateverTheyWrite()
    {
        await using var run = await StartAsync(
            Here,
            ServiceLimits.Default with
            {
                RequestsAtOnce = 3,
                RequestsPerSecond = 1,
            }
        );

        var statuses = new List<int>();
        for (var ask = 0; ask < 8; ask++)
        {
            statuses.Add(await StatusAsync(run, $"198.51.100.{ask}, 203.0.113.7"));
        }

        Assert.Contains(429, statuses);
        Assert.Equal(200, await StatusAsync(run, "203.0.113.8"));
    }

    [Fact]
    public async Task Limit_OfSomebodyWhoIsNotTheProxy_IsOneWhateverTheyWrite()
    {
        await using var run = await StartAsync(
            Other,
            ServiceLimits.Default with
            {
                RequestsAtOnce = 3,
                RequestsPerSecond = 1,
            }
        );

        var statuses = new List<int>();
        for (var ask = 0; ask < 8; ask++)
        {
            statuses.Add(await StatusAsync(run, $"198.51.100.{ask}"));
        }

        Assert.Contains(429, statuses);
    }

    private static async Task<int> StatusAsync(ServiceRun run, string from)
    {
        using var answer = await AskAsync(
            run,
            "style.css",
            [("X-Forwarded-For", from), ("X-Forwarded-Proto", "https"), ("X-Forwarded-Host", Name)]
        );
        return (int)answer.StatusCode;
    }

    [Fact]
    public async Task Links_OfNotices_LeadToThePublicName()
    {
        using var folder = new NoticeFolder(
            """
            "webhooks": [{ "name": "w", "address": "https://told.example/x",
                "secret": "whsec_MDEyMzQ1Njc4OTAxMjM0NTY3ODkwMTIz" }]
            """
        );
        await using var run = await folder.StartAsync(change: settings => settings with { Proxy = Here });

        Assert.Equal($"https://{Name}/", run.Get<NoticeSettings>().Service.ToString());
    }

    [Theory]
    [InlineData("127.0.0.1", "http://shop.example", "--public")]
    [InlineData("127.0.0.1", "https://shop.example/path", "--public")]
    [InlineData("127.0.0.1", "https://me@shop.example", "--public")]
    [InlineData("127.0.0.1", "shop.example", "--public")]
    [InlineData("127.0.0.1,", "https://shop.example", "--proxy")]
    [InlineData("localhost", "https://shop.example", "--proxy")]
    [InlineData("0.0.0.0/0", "https://shop.example", "--proxy")]
    [InlineData("::/0", "https://shop.example", "--proxy")]
    [InlineData("10.0.3.0/33", "https://shop.example", "--proxy")]
    public void Settings_ThatCannotBe_AreTold(string trusted, string address, string option)
    {
        var (settings, fault) = ProxySettings.Read(trusted, address);

        Assert.Null(settings);
        Assert.StartsWith(option, fault, StringComparison.Ordinal);
    }
}
