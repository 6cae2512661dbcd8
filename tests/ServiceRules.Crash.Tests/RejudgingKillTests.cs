using System.Diagnostics;
using System.Globalization;
using System.Net;
using System.Net.Http.Headers;
using System.Text.Json;
using System.Text.RegularExpressions;
using ServiceRules.TestKit;
using Xunit.Abstractions;

namespace ServiceRules.Crash.Tests;

/// <summary>Instances are killed (signal 9) while they judge the stored history again.</summary>
public sealed partial class RejudgingKillTests(ITestOutputHelper told)
{
    private const int Senders = 4;

    private static readonly int Filed = Tier.Of(120, 1_000);
    private static readonly int FiledAlone = Tier.Of(60, 500);
    private static readonly int Kills = Tier.Of(1, 5);

    // An instance that died is missed within half a minute.
    private static readonly TimeSpan Patience = TimeSpan.FromMinutes(Tier.Of(4, 20));

    private static string Place => $"api/packs/{MilderRules.ShippedDigest}/rejudging";

    [SkippableFact]
    public async Task Serve_OneOfTwoKilledWhileTheyJudgeTheHistory_JudgesEachOnce()
    {
        using var server = PostgresServer.Require();
        using var shop = await SharedShop.OpenAsync(server, 2, MilderRules.BeginIn);
        await FileAllAsync(shop.Clients, Filed);
        await ActivateAsync(shop.Clients[0]);
        var before = shop.Folders[0].Entries();

        var clock = Stopwatch.StartNew();
        await BeginAsync(shop.Clients[0]);
        await BeginAsync(shop.Clients[1]);
        List<long> at = [];
        for (var kill = 0; kill < Kills; kill++)
        {
            var known = at.Count == 0 ? 0 : at[^1];
            at.Add(await UntilAsync(shop.Clients[1], told => Looked(told) > known));
            await shop.KillAsync(0);
            if (kill + 1 < Kills)
            {
                await shop.KillAndStartAsync(0);
            }
        }

        _ = await UntilAsync(shop.Clients[1], told => told.GetProperty("state").GetString() == "done");
        told.WriteLine(
            $"killed after {string.Join(", ", at)} of {Filed + 1} records; done after {clock.Elapsed.TotalSeconds:0} s; pages judged by "
                + $"{string.Join(" and ", shop.Programs.Select(PagesBy))}"
        );
        await AssertEachOnceAsync(shop.Clients[1], Filed + 1);
        // The act, the further assessments, and the secret for a first administrator that each start anew drew.
        Assert.Equal(before + 1 + Filed + 1 + (Kills - 1), shop.Folders[0].Entries());
    }

    [SkippableFact]
    public async Task Serve_KilledWhileItJudgesTheHistory_GoesOnAtTheNextStart()
    {
        Skip.If(OperatingSystem.IsWindows(), "there is no signal 9");
        using var folder = new DataFolder();
        Prepare(folder);
        string key;
        long before,
            at;
        using (var service = await ServedProgram.StartAsync(folder.Data))
        {
            key = folder.NewKey();
            using var client = await service.ClientAsync(key);
            await FileAllAsync([client], FiledAlone);
            await ActivateAsync(client);
            before = folder.Entries();
            await BeginAsync(client);
            at = await UntilAsync(client, told => Looked(told) > 0);
            await service.KillAsync();
        }

        using var next = await ServedProgram.StartAsync(folder.Data);
        using var asking = await next.ClientAsync(key);
        _ = await UntilAsync(asking, told => told.GetProperty("state").GetString() == "done");

        told.WriteLine($"killed after {at} of {FiledAlone} records");
        await AssertEachOnceAsync(asking, FiledAlone);
        // The act, the further assessments, and the secret for a first administrator that the second start drew.
        Assert.Equal(before + 1 + FiledAlone + 1, folder.Entries());
    }

    /// <summary>Nothing here is held to a time; the figures stand in the plan of operations.</summary>
    [SkippableTheory]
    [InlineData(1)]
    [InlineData(2)]
    public async Task Serve_HistoryJudgedAgain_TellsHowManyASecond(int instances)
    {
        Skip.IfNot(Tier.IsLong, "figures are taken in the long tier");
        using var server = PostgresServer.Require();
        using var shop = await SharedShop.OpenAsync(server, instances, MilderRules.BeginIn);
        await FileAllAsync(shop.Clients, Filed);
        await ActivateAsync(shop.Clients[0]);

        var clock = Stopwatch.StartNew();
        foreach (var client in shop.Clients)
        {
            await BeginAsync(client);
        }

        _ = await UntilAsync(shop.Clients[0], told => told.GetProperty("state").GetString() == "done");
        var seconds = clock.Elapsed.TotalSeconds;
        told.WriteLine(
            string.Create(
                CultureInfo.InvariantCulture,
                $"PostgreSQL, instances: {instances}, {Filed + 1} records, all turned: {(Filed + 1) / seconds:0.0} a second; pages judged by "
                    + $"{string.Join(" and ", shop.Programs.Select(PagesBy))}"
            )
        );
        await AssertEachOnceAsync(shop.Clients[0], Filed + 1);
    }

    private static void Prepare(DataFolder folder)
    {
        if (OperatingSystem.IsWindows())
        {
            throw new SkipException("the folder is made private as Unix has it");
        }

        const UnixFileMode mine = UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute;
        Directory.CreateDirectory(folder.Ledger, mine);
        File.SetUnixFileMode(folder.Data, mine);
        MilderRules.BeginIn(folder);
    }

    private static async Task FileAllAsync(List<HttpClient> clients, int count)
    {
        var number = 0;
        await Task.WhenAll(
            Enumerable
                .Range(0, Senders)
                .Select(async sender =>
                {
                    while (Interlocked.Increment(ref number) is var next && next <= count)
                    {
                        using var content = new ByteArrayContent(Job.Held(next));
                        content.Headers.ContentType = new MediaTypeHeaderValue("application/json");
                        using var answer = await clients[sender % clients.Count]
                            .PostAsync(new Uri("api/records", UriKind.Relative), content);
                        Assert.True(answer.IsSuccessStatusCode, await answer.Content.ReadAsStringAsync());
                    }
                })
        );
    }

    private static async Task ActivateAsync(HttpClient client)
    {
        using var answer = await client.PostAsync(
            new Uri(
                $"api/packs/{MilderRules.ShippedDigest}/activation?by=lead-01&reason=season",
                UriKind.Relative
            ),
            null
        );
        Assert.True(answer.StatusCode == HttpStatusCode.Created, await answer.Content.ReadAsStringAsync());
    }

    private static async Task BeginAsync(HttpClient client)
    {
        using var answer = await client.PostAsync(new Uri(Place, UriKind.Relative), null);
        Assert.True(answer.StatusCode == HttpStatusCode.Accepted, await answer.Content.ReadAsStringAsync());
    }

    /// <returns>How many were looked at by then.</returns>
    private static async Task<long> UntilAsync(HttpClient client, Func<JsonElement, bool> isSo)
    {
        using var enough = new CancellationTokenSource(Patience);
        while (true)
        {
            using var answer = JsonDocument.Parse(
                await client.GetByteArrayAsync(new Uri(Place, UriKind.Relative), enough.Token)
            );
            if (isSo(answer.RootElement))
            {
                return Looked(answer.RootElement);
            }

            await Task.Delay(50, enough.Token);
        }
    }

    private static long Looked(JsonElement told) => told.GetProperty("lookedAt").GetInt64();

    private static async Task AssertEachOnceAsync(HttpClient client, int records)
    {
        using var job = JsonDocument.Parse(await client.GetByteArrayAsync(new Uri(Place, UriKind.Relative)));
        Assert.Equal(
            (records, records, 0, 0, 0),
            (
                job.RootElement.GetProperty("records").GetInt32(),
                job.RootElement.GetProperty("turned").GetInt32(),
                job.RootElement.GetProperty("unchanged").GetInt32(),
                job.RootElement.GetProperty("passedOver").GetInt32(),
                job.RootElement.GetProperty("failed").GetInt32()
            )
        );
        for (var number = 1; number < records; number++)
        {
            using var record = JsonDocument.Parse(
                await client.GetByteArrayAsync(new Uri($"api/records/{Job.IdOf(number)}", UriKind.Relative))
            );
            Assert.Equal(1, record.RootElement.GetProperty("turned").GetArrayLength());
            Assert.Equal(
                MilderRules.ShippedDigest,
                record
                    .RootElement.GetProperty("assessment")
                    .GetProperty("digests")
                    .GetProperty("packs")
                    .GetString()
            );
        }
    }

    private static int PagesBy(ServedProgram program) => PageTold().Count(program.Complaints);

    [GeneratedRegex("page [0-9-]+ of the history is judged again")]
    private static partial Regex PageTold();
}
