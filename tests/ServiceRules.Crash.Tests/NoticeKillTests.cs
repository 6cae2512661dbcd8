using System.Net.Http.Headers;
using System.Text.Json;
using ServiceRules.TestKit;
using Xunit.Abstractions;

namespace ServiceRules.Crash.Tests;

/// <summary>The service is killed (signal 9) between filing and telling: whoever is to be told is told.</summary>
public sealed class NoticeKillTests(ITestOutputHelper told)
{
    private const int FiledMost = 4;
    private const int Shared = 12;

    private static readonly int Rounds = Tier.Of(2, 100);
    private static readonly int TakenOver = Tier.Of(1, 10);

    // The first attempt after a failed one comes after ten seconds; an instance that died is missed within half a minute.
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(120);

    [SkippableFact]
    public async Task Serve_KilledBetweenFilingAndTelling_TellsOfAllThatStands()
    {
        using var receiver = new ToldProgram();
        using var folder = new DataFolder();
        receiver.NameIn(folder);
        var seed = Environment.TickCount;
        var random = new Random(seed);
        HashSet<string> acknowledged = [];
        var (number, key) = (0, "");
        for (var round = 0; round < Rounds; round++)
        {
            using var service = await ServedProgram.StartAsync(folder.Data);
            key = key.Length > 0 ? key : folder.NewKey();
            using var client = await service.ClientAsync(key);
            receiver.Pause = TimeSpan.FromMilliseconds(random.Next(0, 300));
            for (var filed = random.Next(1, FiledMost + 1); filed > 0; filed--)
            {
                acknowledged.Add(await FileAsync(client, ++number));
            }

            await Task.Delay(random.Next(0, 300));
            await service.KillAsync();
        }

        var beforeLast = receiver.Heard.Count;
        receiver.Pause = TimeSpan.Zero;
        using var last = await ServedProgram.StartAsync(folder.Data);
        var missing = await receiver.MissingAsync(acknowledged, Patience);

        using var asking = await last.ClientAsync(key);
        await AssertToldAsync(receiver, acknowledged, missing, asking, $"seed {seed}");
        told.WriteLine(
            $"seed {seed}: {Rounds} kills, {acknowledged.Count} holds acknowledged, {beforeLast} notices heard before the last start, "
                + $"{receiver.Heard.Count} in all, {receiver.Heard.Distinct().Count()} without those that came twice"
        );
    }

    [SkippableFact]
    public async Task Serve_TwoInstancesOnOneQueue_TellOnceAndTakeOverFromOneThatIsKilled()
    {
        using var server = PostgresServer.Require();
        using var receiver = new ToldProgram();
        using var shop = await SharedShop.OpenAsync(server, 2, receiver.NameIn);
        HashSet<string> acknowledged = [];
        var number = 0;
        for (var filed = 0; filed < Shared; filed++)
        {
            acknowledged.Add(await FileAsync(shop.Clients[filed % 2], ++number));
        }

        Assert.Empty(await receiver.MissingAsync(acknowledged, Patience));
        await UntilNoneWaitAsync(shop.Clients[0]);
        Assert.Equal(
            acknowledged.Order(StringComparer.Ordinal),
            // The shop began with one that was killed: what it told may come twice.
            receiver
                .Heard.Select(one => one.Record)
                .Where(record => record != Job.IdOf(0))
                .Order(StringComparer.Ordinal)
        );

        for (var kill = 0; kill < TakenOver; kill++)
        {
            receiver.Pause = TimeSpan.FromSeconds(2);
            var before = receiver.Heard.Count;
            for (var filed = 0; filed < Shared; filed++)
            {
                acknowledged.Add(await FileAsync(shop.Clients[0], ++number));
            }

            // Some are being sent now, by either.
            while (receiver.Heard.Count < before + 2)
            {
                await Task.Delay(10);
            }

            await shop.KillAsync(0);
            receiver.Pause = TimeSpan.Zero;
            Assert.Empty(await receiver.MissingAsync(acknowledged, Patience));
            await AssertToldAsync(receiver, acknowledged, [], shop.Clients[1], $"kill {kill}");
            if (kill + 1 < TakenOver)
            {
                await shop.KillAndStartAsync(0);
            }
        }

        told.WriteLine(
            $"{TakenOver} kills of one of two, {acknowledged.Count} holds, {receiver.Heard.Count} notices heard, "
                + $"{receiver.Heard.Distinct().Count()} without those that came twice"
        );
    }

    // Each is told of, under one id, and nothing that does not stand is.
    private static async Task AssertToldAsync(
        ToldProgram receiver,
        HashSet<string> acknowledged,
        IReadOnlyList<string> missing,
        HttpClient client,
        string about
    )
    {
        Assert.True(missing.Count == 0, $"{about}: not told of {string.Join(", ", missing)}");
        await UntilNoneWaitAsync(client);
        var heard = receiver.Heard.Distinct().ToList();
        Assert.Equal(heard.Count, heard.Select(one => one.Record).Distinct().Count());
        Assert.Equal(heard.Count, heard.Select(one => one.Id).Distinct().Count());
        foreach (var unknown in heard.Select(one => one.Record).Except(acknowledged))
        {
            // Filed, and killed before the answer.
            using var stands = await client.GetAsync(new Uri($"api/records/{unknown}", UriKind.Relative));
            Assert.True(stands.IsSuccessStatusCode, $"{about}: told of {unknown}, which does not stand");
        }
    }

    private static async Task UntilNoneWaitAsync(HttpClient client)
    {
        using var enough = new CancellationTokenSource(Patience);
        while (true)
        {
            using var health = JsonDocument.Parse(
                await client.GetByteArrayAsync(new Uri("health/ready", UriKind.Relative), enough.Token)
            );
            var standing = health
                .RootElement.GetProperty("parts")
                .GetProperty("notices")
                .GetProperty("told")
                .GetString();
            if (standing == "0 wait, 0 given up")
            {
                return;
            }

            await Task.Delay(100, enough.Token);
        }
    }

    private static async Task<string> FileAsync(HttpClient client, int number)
    {
        using var content = new ByteArrayContent(Job.Held(number));
        content.Headers.ContentType = new MediaTypeHeaderValue("application/json");
        using var answer = await client.PostAsync(new Uri("api/records", UriKind.Relative), content);
        Assert.True(answer.IsSuccessStatusCode, await answer.Content.ReadAsStringAsync());
        return Job.IdOf(number);
    }
}
