using System.Net;
using System.Text.Json;
using ServiceRules.Application.Accounts;
using ServiceRules.Host.Tests.Sites;

namespace ServiceRules.Host.Tests.Due;

public sealed class DueApiTests(DueAtFiledShop shop) : IClassFixture<DueAtFiledShop>
{
    [Fact]
    public async Task Due_ForALead_IsWhatRegistersAndRecordsOfTheSiteSayTheSoonestFirst()
    {
        using var lead = shop.As(Roles.Lead, TwoSites.First);

        var within = await ItemsAsync(lead, "api/due");
        Assert.Equal(["training", "calibration"], within.Select(Kind));
        Assert.Equal("training tech-05 2026-07-31 register", Line(within[0]));
        Assert.True(within[0].GetProperty("overdue").GetBoolean());
        Assert.Equal(-142, within[0].GetProperty("daysLeft").GetInt32());
        var gauge = within[1];
        Assert.Equal("calibration HG-01 2027-01-10 record", Line(gauge));
        Assert.Equal("J-A1", gauge.GetProperty("record").GetString());
        Assert.Equal(21, gauge.GetProperty("daysLeft").GetInt32());
        Assert.False(gauge.GetProperty("overdue").GetBoolean());
        Assert.Equal(TwoSites.First, gauge.GetProperty("site").GetString());

        var year = await ItemsAsync(lead, "api/due?within=365");
        Assert.Contains("training tech-02 2027-01-31 register", year.Select(Line));
        Assert.Contains("inspection P-ride-on-2 2027-02-10 register", year.Select(Line));
        // Revisions that are not in force any more.
        Assert.DoesNotContain(year, thing => Line(thing).Contains("P-ride-on-1", StringComparison.Ordinal));
        var days = year.Select(thing => thing.GetProperty("due").GetString()).ToList();
        Assert.Equal(days.Order(StringComparer.Ordinal), days);
        Assert.Equal("training", Kind(Assert.Single(await ItemsAsync(lead, "api/due?within=20"))));
    }

    [Fact]
    public async Task Due_ForATechnician_NamesNobodyElseAndNoRecord()
    {
        using var technician = shop.As(Roles.Technician, TwoSites.First, "tech-02");

        var items = await ItemsAsync(technician, "api/due?within=365");

        Assert.Equal(
            "tech-02",
            Assert.Single(items, thing => Kind(thing) == "training").GetProperty("subject").GetString()
        );
        Assert.False(
            Assert.Single(items, thing => Kind(thing) == "calibration").TryGetProperty("record", out _)
        );
        Assert.Contains(items, thing => Kind(thing) == "inspection");
        Assert.DoesNotContain(items, thing => thing.ToString().Contains("tech-01", StringComparison.Ordinal));
    }

    [Fact]
    public async Task Due_OfAnotherSite_IsSeenByNobodyOfThisOne()
    {
        using var first = shop.As(Roles.Officer, TwoSites.First);
        using var second = shop.As(Roles.Officer, TwoSites.Second);
        using var every = shop.As(Roles.Officer, GrantedSite.Every);

        var ofSecond = await ItemsAsync(second, "api/due?within=365");
        Assert.All(ofSecond, thing => Assert.Equal(TwoSites.Second, thing.GetProperty("site").GetString()));
        Assert.DoesNotContain(ofSecond, thing => Kind(thing) == "calibration");
        Assert.Contains("training birch-03 2027-01-31 register", ofSecond.Select(Line));
        var ofFirst = await ItemsAsync(first, "api/due?within=365");
        Assert.DoesNotContain(ofFirst, thing => Line(thing).Contains("birch-03", StringComparison.Ordinal));
        Assert.Equal(ofFirst.Count + ofSecond.Count, (await ItemsAsync(every, "api/due?within=365")).Count);
        var named = "api/due?within=365&site=" + Uri.EscapeDataString(TwoSites.Second);
        Assert.Equal(ofSecond.Select(Line), (await ItemsAsync(every, named)).Select(Line));
        Assert.Equal(403, (await TwoSites.GetAsync(first, named)).Status);
        Assert.Equal(403, (await TwoSites.GetAsync(first, "api/due?site=nowhere")).Status);
        Assert.Equal(400, (await TwoSites.GetAsync(every, "api/due?site=nowhere")).Status);
    }

    [Fact]
    public async Task Due_PageByPage_IsTheSameList()
    {
        using var lead = shop.As(Roles.Lead, GrantedSite.Every);
        var whole = await ItemsAsync(lead, "api/due?within=3660&limit=1000");
        List<JsonElement> pages = [];
        string? next = null;
        do
        {
            using var page = JsonDocument.Parse(
                (
                    await TwoSites.GetAsync(
                        lead,
                        "api/due?within=3660&limit=3" + (next is null ? "" : "&after=" + next)
                    )
                ).Body
            );
            pages.AddRange(
                page.RootElement.GetProperty("items").EnumerateArray().Select(item => item.Clone())
            );
            next = page.RootElement.TryGetProperty("next", out var more) ? more.GetString() : null;
        } while (next is not null);

        Assert.True(whole.Count > 6);
        Assert.Equal(whole.Select(thing => thing.ToString()), pages.Select(thing => thing.ToString()));
    }

    [Theory]
    [InlineData("within=-1")]
    [InlineData("within=3661")]
    [InlineData("within=soon")]
    [InlineData("within=%2B5")]
    [InlineData("limit=0")]
    [InlineData("limit=1001")]
    [InlineData("after=x")]
    [InlineData("after=%00")]
    [InlineData("after=AAAAAAAAAAAAAAAAAAAAAAAA")]
    [InlineData("days=5")]
    [InlineData("within=5&within=6")]
    public async Task Query_ThatCannotBe_IsRefused(string query)
    {
        using var lead = shop.As(Roles.Lead, TwoSites.First);
        using var answer = await lead.GetAsync(new Uri("api/due?" + query, UriKind.Relative));

        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        Assert.Equal("application/problem+json", answer.Content.Headers.ContentType!.MediaType);
    }

    [Fact]
    public async Task Due_AskedForAgain_IsNotSentAgain()
    {
        using var lead = shop.As(Roles.Lead, TwoSites.First);
        var tag = (await TwoSites.GetAsync(lead, "api/due?within=365")).Tag;
        using var again = new HttpRequestMessage(
            HttpMethod.Get,
            new Uri("api/due?within=365", UriKind.Relative)
        );
        again.Headers.IfNoneMatch.ParseAdd(tag);

        using var answer = await lead.SendAsync(again);

        Assert.Equal(HttpStatusCode.NotModified, answer.StatusCode);
    }

    [Fact]
    public async Task Page_OfWhatFallsDue_ShowsWhatWhoeverAsksMaySee()
    {
        using var lead = shop.As(Roles.Lead, TwoSites.First);
        using var technician = shop.As(Roles.Technician, TwoSites.First, "tech-02");
        using var every = shop.As(Roles.Lead, GrantedSite.Every);

        var month = (await TwoSites.GetAsync(lead, "due")).Body;
        Assert.Contains("<a href=\"/records/J-A1\">J-A1</a>", month, StringComparison.Ordinal);
        Assert.Contains("21 days", month, StringComparison.Ordinal);
        Assert.DoesNotContain("tech-01", month, StringComparison.Ordinal);
        var year = (await TwoSites.GetAsync(lead, "due?within=365")).Body;
        Assert.Contains("tech-01", year, StringComparison.Ordinal);
        Assert.DoesNotContain(TwoSites.Second, year, StringComparison.Ordinal);
        Assert.Contains(
            TwoSites.Second,
            (await TwoSites.GetAsync(every, "due?within=365")).Body,
            StringComparison.Ordinal
        );
        var own = (await TwoSites.GetAsync(technician, "due?within=365")).Body;
        Assert.DoesNotContain("tech-01", own, StringComparison.Ordinal);
        Assert.DoesNotContain("J-A1", own, StringComparison.Ordinal);
        Assert.Equal(200, (await TwoSites.GetAsync(lead, "due?within=soon&after=x")).Status);
    }

    private static async Task<List<JsonElement>> ItemsAsync(HttpClient client, string path)
    {
        var (status, body, _, _) = await TwoSites.GetAsync(client, path);
        Assert.True(status == 200, body);
        using var answer = JsonDocument.Parse(body);
        Assert.NotEqual(JsonValueKind.Undefined, answer.RootElement.GetProperty("lookedThrough").ValueKind);
        return [.. answer.RootElement.GetProperty("items").EnumerateArray().Select(item => item.Clone())];
    }

    private static string? Kind(JsonElement thing) => thing.GetProperty("kind").GetString();

    private static string Line(JsonElement thing) =>
        string.Join(
            ' ',
            new[] { "kind", "subject", "due", "source" }.Select(name => thing.GetProperty(name).GetString())
        );
}
