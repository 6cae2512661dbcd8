using System.Globalization;
using Microsoft.AspNetCore.Routing;
using ServiceRules.Application.Accounts;
using ServiceRules.Host.Accounts;

namespace ServiceRules.Host.Tests.Sites;

/// <summary>Every route that is read, as each role of the first site: nothing of the second one stands in any answer.</summary>
public sealed class SeenOfOneSiteTests(TwoSites shop) : IClassFixture<TwoSites>
{
    // Where each route is asked; of a record, entry or job of the second site there is nothing.
    private static readonly Dictionary<string, string[]> Asked = new(StringComparer.Ordinal)
    {
        ["/"] = [""],
        ["/account"] = ["account"],
        ["/api"] = ["api"],
        ["/openapi/v1.json"] = ["openapi/v1.json"],
        ["/api/records"] =
        [
            "api/records",
            "api/records?versions=all",
            "api/records?limit=1",
            "api/records?order=oldest",
            "api/records?machine=M-02",
            "api/records?site=Birch%20Hollow",
        ],
        ["/api/units"] = ["api/units", "api/units?latest=only", "api/units?limit=1", "api/units?unit=U-02-1"],
        ["/api/findings"] =
        [
            "api/findings?limit=1000",
            "api/findings?verdict=not-met",
            "api/findings?limit=1",
        ],
        ["/api/exports/records.csv"] = ["api/exports/records.csv"],
        ["/api/exports/records.jsonl"] = ["api/exports/records.jsonl?versions=all"],
        ["/api/exports/units.csv"] = ["api/exports/units.csv"],
        ["/api/exports/units.jsonl"] = ["api/exports/units.jsonl"],
        ["/api/exports/findings.csv"] = ["api/exports/findings.csv"],
        ["/api/exports/findings.jsonl"] = ["api/exports/findings.jsonl"],
        ["/api/exports/documents.jsonl"] = ["api/exports/documents.jsonl"],
        ["/api/exports/{id}"] = ["api/exports/none"],
        ["/api/exports/{id}/file"] = ["api/exports/none/file"],
        ["/api/exports/{id}/proof"] = ["api/exports/none/proof"],
        ["/holds"] = ["holds"],
        ["/files"] = ["files", "files?asked=none"],
        ["/rules"] = ["rules", "rules?begun=1"],
        ["/waivers"] = ["waivers", "waivers?entry=1"],
        ["/notices"] = ["notices", "notices?state=waiting", "notices?state=delivered", "notices?again=none"],
        ["/api/due"] = ["api/due", "api/due?site=Birch%20Hollow"],
        ["/due"] = ["due", "due?site=Birch%20Hollow"],
        ["/records"] = ["records", "records?machine=M-02", "records?disposition=hold"],
        ["/bench"] = ["bench"],
        ["/api/sites"] = ["api/sites"],
        ["/api/people"] = ["api/people", "api/people?site=Birch%20Hollow"],
        ["/api/machines"] = ["api/machines", "api/machines?site=Birch%20Hollow"],
        ["/api/instruments"] = ["api/instruments", "api/instruments?site=Birch%20Hollow"],
        ["/api/procedures"] = ["api/procedures", "api/procedures?site=Birch%20Hollow"],
        ["/api/certificate"] = ["api/certificate", "api/certificate?site=Birch%20Hollow"],
        ["/api/records/{id}"] = ["api/records/J-A1", "api/records/J-B1"],
        ["/api/records/{id}/report"] = ["api/records/J-B1/report"],
        ["/api/records/{id}/report/proof"] = ["api/records/J-B1/report/proof"],
        ["/records/{id}"] = ["records/J-A1", "records/J-B1"],
        ["/verify"] = ["verify"],
        ["/api/holds"] = ["api/holds"],
        ["/api/packs"] = ["api/packs"],
        ["/api/packs/{digest}/rejudging"] = ["api/packs/sha256:00/rejudging"],
        ["/api/waivers"] = ["api/waivers", "api/waivers?site=Birch%20Hollow"],
        ["/api/notices"] =
        [
            "api/notices",
            "api/notices?state=waiting",
            "api/notices?state=delivered",
            "api/notices?state=given-up",
        ],
    };

    // They tell of the whole log, and hold no content: docs/service.md, several sites.
    private static readonly string[] OfTheLog =
    [
        "/api/ledger/checkpoint",
        "/api/ledger/key",
        "/api/ledger/growth",
        "/api/ledger/entries/{index:long}",
        "/api/ledger/entries/{index:long}/proof",
    ];

    private static readonly string[] OfNoRecord =
    [
        "/style.css",
        "/icon.svg",
        "/sign-in",
        "/sign-in/elsewhere",
        "/sign-in/elsewhere/back",
        "/first-administrator",
        "/health/live",
        "/health/ready",
        // Of the installation, for administrators alone.
        "/people",
        "/people/{id}/removal",
        "/keys",
        "/acts",
    ];

    public static TheoryData<Roles, string?> OfTheFirst =>
        new()
        {
            { Roles.Technician, "tech-02" },
            { Roles.Lead, null },
            { Roles.Officer, null },
            { Roles.Administrator, null },
        };

    private static IEnumerable<string> Paths => Asked.Values.SelectMany(paths => paths);

    [Fact]
    public void EveryRouteThatIsRead_IsAskedHere()
    {
        var mapped = shop
            .Run.Get<EndpointDataSource>()
            .Endpoints.OfType<RouteEndpoint>()
            .Where(route => AccessTable.MethodsOf(route) is [] or ["GET"])
            .Select(AccessTable.PatternOf);

        Assert.Empty(mapped.Except([.. Asked.Keys, .. OfTheLog, .. OfNoRecord]));
    }

    [Theory]
    [MemberData(nameof(OfTheFirst))]
    public async Task EveryAnswer_ToARoleOfTheFirstSite_TellsNothingOfTheSecond(Roles role, string? person)
    {
        using var client = shop.As(role, TwoSites.First, person);
        List<string> told = [];
        foreach (var path in Paths)
        {
            var (status, body, _, link) = await TwoSites.GetAsync(client, path);
            // What was asked for may stand in the answer.
            var known = body.Replace(
                "J-B1",
                path.Contains("J-B1", StringComparison.Ordinal) ? "" : "J-B1",
                StringComparison.Ordinal
            );
            if (
                known.Contains("J-B", StringComparison.Ordinal)
                || known.Contains("birch", StringComparison.OrdinalIgnoreCase)
                || link?.Contains("J-B", StringComparison.Ordinal) == true
            )
            {
                told.Add($"{path}: {known[..Math.Min(known.Length, 300)]}");
            }

            if (
                path.Contains("J-B1", StringComparison.Ordinal)
                && (role is Roles.Administrator ? status != 403 : status != 404)
            )
            {
                told.Add(string.Create(CultureInfo.InvariantCulture, $"{path}: {status}"));
            }
        }

        Assert.Empty(told);
    }

    [Theory]
    [InlineData("api/records/J-B1")]
    [InlineData("api/records/J-B1/report")]
    [InlineData("api/records/J-B1/report/proof")]
    [InlineData("records/J-B1")]
    public async Task Record_OfTheOtherSite_IsAnsweredForLikeOneThatIsNotThere(string path)
    {
        using var client = shop.As(Roles.Officer, TwoSites.First);

        var there = await TwoSites.GetAsync(client, path);
        var absent = await TwoSites.GetAsync(client, path.Replace("J-B1", "J-B0", StringComparison.Ordinal));

        Assert.Equal(404, there.Status);
        Assert.Equal(absent.Body.Replace("J-B0", "J-B1", StringComparison.Ordinal), there.Body);
    }

    [Fact]
    public async Task EveryAnswer_ToTheFirstSite_StaysWhatItIsWhenTheSecondFilesMore()
    {
        using var client = shop.As(Roles.Lead, TwoSites.First);
        // A report is filed when it is asked for first.
        _ = await TwoSites.GetAsync(client, "api/records/J-A1/report");
        var before = await AllAsync();

        _ = await shop.FiledAsync(TwoSites.Second, TwoSites.Job("J-B3", "15"));
        _ = await shop.FiledAsync(TwoSites.Second, TwoSites.Start("J-B-start"));

        Assert.Equal(before, await AllAsync());

        async Task<List<string>> AllAsync()
        {
            List<string> answers = [];
            foreach (var path in Paths.Append("api/records/J-A1/report"))
            {
                var (status, body, tag, link) = await TwoSites.GetAsync(client, path);
                answers.Add($"{path} {status} {tag} {link} {WithoutToken(body)}");
            }

            return answers;
        }
    }

    [Fact]
    public async Task Entries_OfTheLog_AreSeenWhereTheyAreOfOwnRecords()
    {
        using var every = shop.As(Roles.Officer, GrantedSite.Every);
        using var first = shop.As(Roles.Officer, TwoSites.First);
        var own = 0;
        for (var index = 0; ; index++)
        {
            var path = string.Create(CultureInfo.InvariantCulture, $"api/ledger/entries/{index}");
            var whole = await TwoSites.GetAsync(every, path);
            if (whole.Status == 404)
            {
                break;
            }

            Assert.Equal(200, (await TwoSites.GetAsync(every, path + "/proof")).Status);
            var isOwn = whole.Body.Contains("\"subject\":\"J-A1\"", StringComparison.Ordinal);
            var expected = isOwn ? 200 : 404;
            Assert.Equal(expected, (await TwoSites.GetAsync(first, path)).Status);
            Assert.Equal(expected, (await TwoSites.GetAsync(first, path + "/proof")).Status);
            own += isOwn ? 1 : 0;
        }

        Assert.True(own >= 2);
    }

    [Fact]
    public async Task Report_OfTheOtherSite_IsVerifiedAndItsPlaceNotTold()
    {
        using var second = shop.As(Roles.Lead, TwoSites.Second);
        using var first = shop.As(Roles.Lead, TwoSites.First);
        var report = await second.GetByteArrayAsync(new Uri("api/records/J-B1/report", UriKind.Relative));

        Assert.Contains("\"here\":{", await LookAsync(second), StringComparison.Ordinal);
        var told = await LookAsync(first);
        Assert.Contains("\"standing\":\"genuine\"", told, StringComparison.Ordinal);
        Assert.DoesNotContain("\"here\":{", told, StringComparison.Ordinal);

        async Task<string> LookAsync(HttpClient client)
        {
            using var body = new ByteArrayContent(report);
            body.Headers.ContentType = new("application/pdf");
            using var answer = await client.PostAsync(new Uri("api/verifications", UriKind.Relative), body);
            return await answer.Content.ReadAsStringAsync();
        }
    }

    [Fact]
    public async Task Certificate_OfEachSite_IsItsOwn()
    {
        using var first = shop.As(Roles.Lead, TwoSites.First);
        using var second = shop.As(Roles.Lead, TwoSites.Second);

        Assert.Contains("O=" + TwoSites.First, await SubjectAsync(first), StringComparison.Ordinal);
        Assert.Contains("O=" + TwoSites.Second, await SubjectAsync(second), StringComparison.Ordinal);

        static async Task<string> SubjectAsync(HttpClient client)
        {
            var pem = await client.GetStringAsync(new Uri("api/certificate", UriKind.Relative));
            using var certificate =
                System.Security.Cryptography.X509Certificates.X509Certificate2.CreateFromPem(pem);
            return certificate.Subject;
        }
    }

    // Each page carries a token of its own.
    private static string WithoutToken(string body) =>
        System.Text.RegularExpressions.Regex.Replace(body, "value=\"CfDJ8[^\"]*\"", "");
}
