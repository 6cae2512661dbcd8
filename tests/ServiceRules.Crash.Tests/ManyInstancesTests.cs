using ServiceRules.TestKit;
using Xunit.Abstractions;

namespace ServiceRules.Crash.Tests;

/// <summary>Several instances of the service on one PostgreSQL, each with a private folder of its own.</summary>
public sealed class ManyInstancesTests(ITestOutputHelper told)
{
    private const int Instances = 3;
    private const int Senders = 4;

    private static readonly int Kills = Tier.Of(2, 60);
    private static readonly TimeSpan BetweenKills = Tier.Of(TimeSpan.FromSeconds(2), TimeSpan.FromSeconds(4));

    [SkippableFact]
    public async Task Serve_OneOfThreeKilledAgainAndAgain_LosesNothingAndDoublesNothing()
    {
        using var server = PostgresServer.Require();
        using var shop = await SharedShop.OpenAsync(server, Instances);
        var seed = Environment.TickCount;
        var random = new Random(seed);
        var promises = new Promises();
        var number = 0;
        using var stop = new CancellationTokenSource();
        var senders = Enumerable
            .Range(0, Senders)
            .Select(_ => random.Next())
            .ToList()
            .ConvertAll(one =>
            {
                var turn = new Random(one);
                return new Sender(
                    promises,
                    () => Interlocked.Increment(ref number),
                    new Random(one)
                ).SendAsync(() => shop.Clients[turn.Next(Instances)], stop.Token);
            });
        for (var kill = 0; kill < Kills; kill++)
        {
            await Task.Delay(BetweenKills);
            await shop.KillAndStartAsync(random.Next(Instances));
        }

        await stop.CancelAsync();
        await Task.WhenAll(senders);

        var standing = 0;
        foreach (var client in shop.Clients)
        {
            standing = await KeptPromises.AssertVersionsAsync(client, promises, $"seed {seed}");
        }

        await KeptPromises.AssertReportsAsync(shop.Clients[0], promises.Reports, $"seed {seed}");
        var entries = shop.Folders[0].Entries();
        told.WriteLine(
            $"seed {seed}: {Kills} kills of {Instances} instances; {promises.Versions.Distinct().Count()} versions and "
                + $"{promises.Reports.Count} reports acknowledged, {standing} versions standing, {entries} entries"
        );
        Assert.Empty(promises.Faults);
        Assert.InRange(promises.Versions.Count, Kills, int.MaxValue);
    }

    [SkippableFact]
    public async Task Serve_DatabaseKilledUnderLoad_PutsOffAndGoesOnWithoutARestart()
    {
        using var server = PostgresServer.Require();
        using var shop = await SharedShop.OpenAsync(server, instances: 1);
        var promises = new Promises();
        var number = 0;
        using var stop = new CancellationTokenSource();
        var senders = Enumerable
            .Range(0, Senders)
            .Select(one =>
                new Sender(promises, () => Interlocked.Increment(ref number), new Random(one)).SendAsync(
                    () => shop.Clients[0],
                    stop.Token
                )
            )
            .ToList();
        await GrownAsync(promises, 5);
        server.Crash();
        await Task.Delay(BetweenKills);
        var putOff = promises.PutOff.Count;
        server.Start();
        await GrownAsync(promises, promises.Versions.Count + 5);
        await stop.CancelAsync();
        await Task.WhenAll(senders);

        await KeptPromises.AssertVersionsAsync(shop.Clients[0], promises, "after the database came back");
        _ = shop.Folders[0].Entries();
        Assert.Empty(promises.Faults);
        Assert.InRange(putOff, 1, int.MaxValue);
        told.WriteLine(
            $"{putOff} answers put off while the database was away, {promises.Versions.Count} acknowledged"
        );
    }

    private static async Task GrownAsync(Promises promises, int wanted)
    {
        for (var look = 0; promises.Versions.Count < wanted; look++)
        {
            Assert.True(
                look < 600,
                $"nothing is acknowledged any more: {string.Join(", ", promises.PutOff)}"
            );
            await Task.Delay(100);
        }
    }
}
