using System.Net;
using System.Net.Http.Headers;
using System.Text;
using System.Text.Json;
using Xunit.Abstractions;

namespace ServiceRules.Crash.Tests;

/// <summary>The service is killed (signal 9) while it writes a list to a file.</summary>
public sealed class ExportKillTests(ITestOutputHelper told)
{
    private const int Filed = 30;

    private static readonly int Rounds = Tier.Of(1, 50);
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(120);

    private static readonly string[] Lists = ["records", "units", "findings"];

    [SkippableFact]
    public async Task Serve_KilledWhileItWritesAFile_WritesItWholeAtTheNextStart()
    {
        Skip.If(OperatingSystem.IsWindows(), "there is no signal 9");
        using var folder = new DataFolder();
        var seed = Environment.TickCount;
        var random = new Random(seed);
        var (key, unfinished) = ("", 0);
        for (var round = 0; round < Rounds; round++)
        {
            List<string> places = [];
            using (var service = await ServedProgram.StartAsync(folder.Data))
            {
                key = key.Length > 0 ? key : folder.NewKey();
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

                foreach (var list in Lists)
                {
                    using var content = Json(
                        Encoding.UTF8.GetBytes(
                            $$"""{ "format": "export-request/1", "what": "{{list}}", "as": "csv", "filter": { "until": "20{{random.Next(30, 99)}}-12-31" } }"""
                        )
                    );
                    using var asked = await client.PostAsync(
                        new Uri("api/exports", UriKind.Relative),
                        content
                    );
                    // Ten are kept of one caller: the rounds after the third have another one.
                    Assert.Equal(HttpStatusCode.Accepted, asked.StatusCode);
                    places.Add(asked.Headers.Location!.OriginalString.TrimStart('/'));
                }

                await Task.Delay(random.Next(0, 250));
                await service.KillAsync();
            }

            using var next = await ServedProgram.StartAsync(folder.Data);
            using var asking = await next.ClientAsync(key);
            foreach (var (list, place) in Lists.Zip(places))
            {
                unfinished += await StateAsync(asking, place) == "done" ? 0 : 1;
                await UntilDoneAsync(asking, place, $"seed {seed}, round {round}");
                var whole = await asking.GetByteArrayAsync(
                    new Uri($"api/exports/{list}.csv", UriKind.Relative)
                );
                Assert.Equal(
                    whole,
                    await asking.GetByteArrayAsync(new Uri(place + "/file", UriKind.Relative))
                );
            }

            await next.KillAsync();
            key = (round + 1) % 3 == 0 ? folder.NewKey() : key;
        }

        told.WriteLine(
            $"seed {seed}: {Rounds} kills, {Rounds * Lists.Length} files, {unfinished} not whole when it was started again"
        );
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
        using var told = JsonDocument.Parse(await client.GetByteArrayAsync(new Uri(place, UriKind.Relative)));
        return told.RootElement.GetProperty("state").GetString()!;
    }

    private static ByteArrayContent Json(byte[] body)
    {
        var content = new ByteArrayContent(body);
        content.Headers.ContentType = new MediaTypeHeaderValue("application/json");
        return content;
    }
}
