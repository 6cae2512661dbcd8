using System.Text;
using System.Text.Json;
using ServiceRules.Application.Accounts;

namespace ServiceRules.Host.Tests.Sites;

/// <summary>What was erased stays that of its site, though nothing tells any more which site that was.</summary>
public sealed class ErasedAtASiteTests(TwoSites shop) : IClassFixture<TwoSites>
{
    private const string Erasure =
        "api/people/tech-02/erasure?by=officer-01&reason=asked&contents=true&site=Birch%20Hollow";

    [Fact]
    public async Task Record_WhoseContentsWereErased_IsTakenOverByNoOtherSiteAndLeavesNoFile()
    {
        using var every = shop.As(Roles.Administrator | Roles.Lead, GrantedSite.Every);
        var (asked, told) = await TwoSites.PostAsync(
            every,
            "api/exports",
            Encoding.UTF8.GetBytes("""{ "format": "export-request/1", "what": "documents", "as": "jsonl" }""")
        );
        var file = "api/exports/" + JsonDocument.Parse(told).RootElement.GetProperty("id").GetString();

        var erased = await TwoSites.PostAsync(every, Erasure, []);

        Assert.Equal((202, 201), (asked, erased.Status));
        Assert.Equal(404, (await TwoSites.GetAsync(every, file)).Status);
        using var first = shop.As(Roles.Lead, TwoSites.First);
        var amended = await TwoSites.PostAsync(
            first,
            "api/records/J-B1/amendments?by=lead-01&reason=x",
            TwoSites.Job("J-B1", "14")
        );
        var sent = await TwoSites.PostAsync(first, "api/records", TwoSites.Job("J-B1", "14"));
        Assert.Equal((404, 409), (amended.Status, sent.Status));
        Assert.DoesNotContain("entry", sent.Body, StringComparison.Ordinal);
        Assert.Equal(404, (await TwoSites.GetAsync(first, "api/records/J-B1")).Status);
        Assert.Equal(200, (await TwoSites.GetAsync(every, "api/records/J-B1")).Status);
        Assert.Equal(410, (await TwoSites.GetAsync(every, "api/records/J-B1/report")).Status);
    }
}
