using System.Net;
using System.Net.Http.Headers;
using System.Text;
using System.Text.Json;
using ServiceRules.Application.Accounts;
using ServiceRules.Application.Library;
using ServiceRules.TestKit;

namespace ServiceRules.Host.Tests.Sites;

/// <summary>
/// Two sites with machines, locks and people of the same identities, and of the second one some of its own; J-A1 is filed at the
/// first, J-B1 and J-B2 at the second.
/// </summary>
public sealed class TwoSites : IAsyncLifetime
{
    public const string First = "Alder Reach Parks Trust";
    public const string Second = "Birch Hollow";

    private readonly string folder = Directory.CreateTempSubdirectory("servicerules-sites-").FullName;

    public ServiceRun Run { get; private set; } = null!;

    public string SecondFolder => MakeSecond(folder);

    public async Task InitializeAsync()
    {
        Run = await ServiceRun.StartAsync(null, settings => WithSecond(settings, folder));
        await FiledAsync(First, Job("J-A1", "13"));
        await FiledAsync(Second, Job("J-B1", "13"));
        await FiledAsync(Second, Job("J-B2", "14", ("3.82 mm", "4.90 mm")));
    }

    public async Task DisposeAsync()
    {
        await Run.DisposeAsync();
        Directory.Delete(folder, recursive: true);
    }

    public static ServiceSettings WithSecond(ServiceSettings settings, string folder)
    {
        var second = RuleFolder.LoadSite(MakeSecond(folder), settings.Rules);
        Assert.True(second.IsSound, string.Join("\n", second.Diagnostics));
        return settings with { Sites = [second] };
    }

    /// <summary>A folder of the second site alone.</summary>
    public static string MakeSecond(string folder)
    {
        var source = ReferenceFiles.InRepository("rules", "site-alder-reach");
        var target = Path.Combine(folder, "site-birch-hollow");
        foreach (var file in Directory.EnumerateFiles(source, "*", SearchOption.AllDirectories))
        {
            var copy = Path.Combine(target, Path.GetRelativePath(source, file));
            _ = Directory.CreateDirectory(Path.GetDirectoryName(copy)!);
            File.WriteAllText(
                copy,
                File.ReadAllText(file)
                    .Replace(First, Second, StringComparison.Ordinal)
                    .Replace("tech-03", "birch-03", StringComparison.Ordinal)
                    .Replace("\"M-11\"", "\"BIRCH-11\"", StringComparison.Ordinal)
                    .Replace("HG-05", "BIRCH-HG-05", StringComparison.Ordinal)
            );
        }

        return target;
    }

    public static byte[] Job(string id, string day, params (string, string)[] changes) =>
        ServiceRun.Record(
            "height-check",
            [("F-height-check", id), ("2026-04-13", "2026-04-" + day), .. changes]
        );

    /// <summary>That the machine of jobs of the 13th was started while hands were in its units.</summary>
    public static byte[] Start(string id) =>
        Encoding.UTF8.GetBytes(
            $$"""
            { "format": "service-record/1", "id": "{{id}}", "date": "2026-04-13", "machine": { "id": "M-02" },
              "tasks": ["daily-check"], "people": [{ "id": "tech-04", "role": "performs" }],
              "units": [{ "id": "U-02-1", "sheet": "reel-125-9-510", "position": 1, "entries": [] }],
              "timeline": [{ "event": "machine_started", "at": "2026-04-13T08:20:00+01:00", "by": "tech-04" }],
              "signOff": { "by": "tech-04", "at": "2026-04-13T09:30:00+01:00" } }
            """
        );

    /// <summary>Asks with a key of a site.</summary>
    public HttpClient As(Roles roles, string? site, string? person = null) =>
        Run.ClientWith(Run.NewKey(roles, person, site: site));

    public static async Task<(int Status, string Body)> PostAsync(
        HttpClient client,
        string path,
        byte[] body,
        string? key = null
    )
    {
        using var request = new HttpRequestMessage(HttpMethod.Post, new Uri(path, UriKind.Relative))
        {
            Content = new ByteArrayContent(body)
            {
                Headers = { ContentType = new MediaTypeHeaderValue("application/json") },
            },
        };
        if (key is not null)
        {
            Assert.True(request.Headers.TryAddWithoutValidation("Idempotency-Key", key));
        }

        using var answer = await client.SendAsync(request);
        return ((int)answer.StatusCode, await answer.Content.ReadAsStringAsync());
    }

    public static async Task<(int Status, string Body, string? Tag, string? Link)> GetAsync(
        HttpClient client,
        string path
    )
    {
        using var answer = await client.GetAsync(new Uri(path, UriKind.Relative));
        // Of a report the bytes are held against one another, whatever they are.
        var body = Encoding.Latin1.GetString(await answer.Content.ReadAsByteArrayAsync());
        return (
            (int)answer.StatusCode,
            body,
            answer.Headers.ETag?.ToString(),
            answer.Headers.TryGetValues("Link", out var links) ? links.Single() : null
        );
    }

    public async Task<JsonElement> FiledAsync(string site, byte[] record)
    {
        using var client = As(Roles.Lead, site);
        var (status, body) = await PostAsync(client, "api/records", record);
        Assert.True(status == (int)HttpStatusCode.Created, body);
        using var document = JsonDocument.Parse(body);
        return document.RootElement.Clone();
    }
}
