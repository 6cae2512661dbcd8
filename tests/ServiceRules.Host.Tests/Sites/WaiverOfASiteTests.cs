using System.Net;
using System.Text;
using System.Text.Json;
using ServiceRules.Application.Accounts;

namespace ServiceRules.Host.Tests.Sites;

/// <summary>A waiver counts at its site, and is seen there alone.</summary>
public sealed class WaiverOfASiteTests(TwoSites shop) : IClassFixture<TwoSites>
{
    private const string Secret = "only at the second";

    [Fact]
    public async Task Waiver_OfTheSecondSite_CountsAndIsSeenThereAlone()
    {
        using var second = shop.As(Roles.Lead, TwoSites.Second);
        using var first = shop.As(Roles.Lead, TwoSites.First);
        foreach (var rule in await BreachedAsync(first))
        {
            var (status, body) = await TwoSites.PostAsync(second, "api/waivers", Waiver(rule));
            Assert.True(status == (int)HttpStatusCode.Created, body);
        }

        Assert.Equal("release", await DispositionAsync(second));
        Assert.Equal("hold", await DispositionAsync(first));
        var (_, seen, _, _) = await TwoSites.GetAsync(first, "api/waivers");
        Assert.DoesNotContain(Secret, seen, StringComparison.Ordinal);
        Assert.Equal(403, (await TwoSites.GetAsync(first, "api/waivers?site=Birch%20Hollow")).Status);
        Assert.Equal(
            403,
            (
                await TwoSites.PostAsync(first, "api/waivers?site=Birch%20Hollow", Waiver("height-in-range"))
            ).Status
        );
        Assert.Equal(
            404,
            (await TwoSites.PostAsync(first, "api/waivers/W-1/withdrawal?reason=x", [])).Status
        );
        // The same rule on the same days is waived there, and free here.
        Assert.Equal(
            201,
            (await TwoSites.PostAsync(first, "api/waivers", Waiver("groomer-starts-at-height"))).Status
        );
    }

    private static byte[] Waiver(string rule) =>
        Encoding.UTF8.GetBytes(
            $$"""
            { "format": "waiver/1", "rule": "{{rule}}", "by": "lead-01", "reason": "{{Secret}}",
              "from": "2026-04-01", "until": "2026-04-30" }
            """
        );

    private static async Task<JsonElement> JudgedAsync(HttpClient client)
    {
        var (status, body) = await TwoSites.PostAsync(
            client,
            "api/judgements",
            TwoSites.Job("J-W1", "20", ("3.82 mm", "4.90 mm"))
        );
        Assert.True(status == 200, body);
        using var read = JsonDocument.Parse(body);
        return read.RootElement.Clone();
    }

    private static async Task<string?> DispositionAsync(HttpClient client) =>
        (await JudgedAsync(client)).GetProperty("job").GetProperty("disposition").GetString();

    private static async Task<List<string>> BreachedAsync(HttpClient client) =>
        [
            .. (await JudgedAsync(client))
                .GetProperty("findings")
                .EnumerateArray()
                .Where(finding => finding.GetProperty("verdict").GetString() == "not-met")
                .Select(finding => finding.GetProperty("rule").GetString()!)
                .Distinct(),
        ];
}
