using System.Globalization;
using System.Net;
using System.Net.Http.Headers;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using Xunit.Abstractions;

namespace ServiceRules.Crash.Tests;

/// <summary>The service is killed (signal 9) while it makes the report of a period.</summary>
public sealed class PeriodReportKillTests(ITestOutputHelper told)
{
    private const int Filed = 12;

    private static readonly int Rounds = Tier.Of(1, 50);
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(120);

    [SkippableFact]
    public async Task Serve_KilledWhileItMakesTheReportOfAPeriod_FilesItOnce()
    {
        Skip.If(OperatingSystem.IsWindows(), "there is no signal 9");
        using var folder = new DataFolder();
        var seed = Environment.TickCount;
        var random = new Random(seed);
        var (key, unfinished) = ("", 0);
        for (var round = 0; round < Rounds; round++)
        {
            // Another period each time: what was made before is made again for nobody.
            var until = string.Create(CultureInfo.InvariantCulture, $"{2030 + round}-12-31");
            string place;
            using (var service = await ServedProgram.StartAsync(folder.Data))
            {
                // Ten files are kept of one caller.
                key = round % 10 == 0 ? folder.NewKey() : key;
                using var client = await service.ClientAsync(key);
                for (var number = 1; round == 0 && number <= Filed; number++)
                {
                    using var content = Json(Job.Of(number));
                    using var filed = await client.PostAsync(
                        new Uri("api/records", UriKind.Relative),
                        content
                    );
                    Assert.True(filed.IsSuccessStatusCode, await filed.Content.ReadAsStringAsync());
                }

                using var request = Json(
                    Encoding.UTF8.GetBytes(
                        $$"""{ "format": "export-request/1", "what": "safe-work", "as": "pdf", "filter": { "from": "1991-01-01", "until": "{{until}}" } }"""
                    )
                );
                using var asked = await client.PostAsync(new Uri("api/exports", UriKind.Relative), request);
                Assert.Equal(HttpStatusCode.Accepted, asked.StatusCode);
                place = asked.Headers.Location!.OriginalString.TrimStart('/');
                await Task.Delay(random.Next(0, 1500));
                await service.KillAsync();
            }

            unfinished += await WasDoneAsync(folder, key, place, until, $"seed {seed}, round {round}")
                ? 0
                : 1;
        }

        told.WriteLine(
            $"seed {seed}: {Rounds} kills, {unfinished} reports not whole when it was started again"
        );
    }

    /// <summary>After the next start the report is whole and stands in the log once; whether it did before.</summary>
    private static async Task<bool> WasDoneAsync(
        DataFolder folder,
        string key,
        string place,
        string until,
        string about
    )
    {
        using var next = await ServedProgram.StartAsync(folder.Data);
        using var asking = await next.ClientAsync(key);
        var wasDone = await StateAsync(asking, place) == "done";
        await UntilDoneAsync(asking, place, about);
        var pdf = await asking.GetByteArrayAsync(new Uri(place + "/file", UriKind.Relative));
        Assert.Equal(
            ["sha256:" + Convert.ToHexStringLower(SHA256.HashData(pdf))],
            await FiledAsync(asking, $"safe-work.1991-01-01.{until}")
        );
        await next.KillAsync();
        return wasDone;
    }

    /// <summary>The digests of all reports about a subject that stand in the log.</summary>
    private static async Task<List<string>> FiledAsync(HttpClient client, string subject)
    {
        List<string> found = [];
        for (var index = 0; ; index++)
        {
            using var answer = await client.GetAsync(
                new Uri(
                    string.Create(CultureInfo.InvariantCulture, $"api/ledger/entries/{index}"),
                    UriKind.Relative
                )
            );
            if (answer.StatusCode == HttpStatusCode.NotFound)
            {
                return found;
            }

            using var entry = JsonDocument.Parse(await answer.Content.ReadAsByteArrayAsync());
            if (
                entry.RootElement.GetProperty("kind").GetString() == "report"
                && entry.RootElement.GetProperty("subject").GetString() == subject
            )
            {
                found.Add(entry.RootElement.GetProperty("content").GetString()!);
            }
        }
    }

    private static async Task UntilDoneAsync(HttpClient client, string place, string about)
    {
        using var enough = new CancellationTokenSource(Patience);
        while (await StateAsync(client, place) is var state && state != "done")
        {
            Assert.True(state is "queued" or "running", $"{about}: {state}");
            await Task.Delay(50, enough.Token);
        }
    }

    private static async Task<string> StateAsync(HttpClient client, string place)
    {
        using var answer = JsonDocument.Parse(
            await client.GetByteArrayAsync(new Uri(place, UriKind.Relative))
        );
        return answer.RootElement.GetProperty("state").GetString()!;
    }

    private static ByteArrayContent Json(byte[] body)
    {
        var content = new ByteArrayContent(body);
        content.Headers.ContentType = new MediaTypeHeaderValue("application/json");
        return content;
    }
}
