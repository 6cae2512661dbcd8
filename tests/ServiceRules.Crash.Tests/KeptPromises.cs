using System.Net;
using System.Net.Http.Headers;
using System.Text.Json;

namespace ServiceRules.Crash.Tests;

/// <summary>Asks a service whether all that was acknowledged is there.</summary>
internal static class KeptPromises
{
    private const int PerPage = 1000;

    /// <summary>Every version that was acknowledged stands where it was said to stand, and none stands twice.</summary>
    /// <returns>How many versions stand.</returns>
    public static async Task<int> AssertVersionsAsync(HttpClient client, Promises promises, string told)
    {
        var standing = await VersionsAsync(client);
        Assert.True(
            standing.Count == standing.Distinct().Count()
                && standing.Count
                    == standing.Select(version => (version.Id, version.Content)).Distinct().Count(),
            $"{told}: something stands twice"
        );
        var missing = promises.Versions.Distinct().Except(standing).Take(5).ToList();
        Assert.True(missing.Count == 0, $"{told}: acknowledged, and not there: {string.Join(", ", missing)}");
        return standing.Count;
    }

    /// <summary>Every report that was handed out is genuine, stands in the log, and is handed out again.</summary>
    public static async Task AssertReportsAsync(
        HttpClient client,
        IEnumerable<IssuedReport> reports,
        string told
    )
    {
        foreach (var report in reports)
        {
            using var content = new ByteArrayContent(report.Content);
            content.Headers.ContentType = new MediaTypeHeaderValue("application/pdf");
            using var answer = await client.PostAsync(
                new Uri("api/verifications", UriKind.Relative),
                content
            );
            Assert.True(answer.StatusCode == HttpStatusCode.OK, $"{told}: report of {report.Id}");
            using var verified = JsonDocument.Parse(await answer.Content.ReadAsByteArrayAsync());
            var root = verified.RootElement;
            Assert.True(
                root.GetProperty("standing").GetString() == "genuine"
                    && root.GetProperty("here").ValueKind == JsonValueKind.Object,
                $"{told}: report of {report.Id}: {root.GetProperty("standing")}, {root.GetProperty("here")}"
            );
        }
    }

    private static async Task<List<KeptVersion>> VersionsAsync(HttpClient client)
    {
        var versions = new List<KeptVersion>();
        var path = FormattableString.Invariant($"api/records?versions=all&limit={PerPage}");
        for (string? after = ""; after is not null; )
        {
            using var page = JsonDocument.Parse(
                await client.GetByteArrayAsync(new Uri(path + after, UriKind.Relative))
            );
            versions.AddRange(
                page.RootElement.GetProperty("items")
                    .EnumerateArray()
                    .Select(item => new KeptVersion(
                        item.GetProperty("id").GetString()!,
                        item.GetProperty("entry").GetInt64(),
                        item.GetProperty("record").GetString()!
                    ))
            );
            after =
                page.RootElement.TryGetProperty("next", out var next)
                && next.ValueKind == JsonValueKind.String
                    ? "&after=" + Uri.EscapeDataString(next.GetString()!)
                    : null;
        }

        return versions;
    }
}
