using System.Diagnostics;
using Xunit.Abstractions;

namespace ServiceRules.Crash.Tests;

/// <summary>The service is killed (signal 9) again and again under load, and started on what is left.</summary>
public sealed class KillTests(ITestOutputHelper told)
{
    private const int Senders = 4;
    private const int AnsweredMost = 12;

    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(20);

    private static readonly int Rounds = Tier.Of(4, 200);
    private static readonly int Starts = Tier.Of(3, 50);

    private static readonly Moment[] Around = Enum.GetValues<Moment>();

    [SkippableFact]
    public async Task Serve_KilledUnderLoad_KeepsAllThatItAcknowledgedAndNothingInHalf()
    {
        Skip.If(OperatingSystem.IsWindows(), "there is no signal 9");
        using var folder = new DataFolder();
        var promises = new Promises();
        var seed = Environment.TickCount;
        var random = new Random(seed);
        var (number, midway, key) = (0, 0, "");
        for (var round = 0; round < Rounds; round++)
        {
            var moment = Around[round % Around.Length];
            using var service = ServedProgram.Launch(folder.Data);
            if (moment == Moment.AsItStarts && round > 0)
            {
                await moment.ComesAsync(folder, random);
            }
            else
            {
                Assert.True(await service.AddressAsync() is not null, $"seed {seed}: {service.Complaints}");
                key = key.Length > 0 ? key : folder.NewKey();
                using var client = await service.ClientAsync(key);
                await KeptPromises.AssertVersionsAsync(client, promises, $"seed {seed}, round {round}");
                midway += await LoadUntilAsync(moment, service, client) ? 1 : 0;
            }

            await service.KillAsync();
        }

        using var last = await ServedProgram.StartAsync(folder.Data);
        using var asking = await last.ClientAsync(key);
        var standing = await KeptPromises.AssertVersionsAsync(asking, promises, $"seed {seed}, at the end");
        await KeptPromises.AssertReportsAsync(asking, promises.Reports, $"seed {seed}");
        await last.KillAsync();
        var entries = folder.Entries();
        told.WriteLine(
            $"seed {seed}: {Rounds} rounds, {midway} killed with requests unanswered; {promises.Versions.Distinct().Count()} versions and "
                + $"{promises.Reports.Count} reports acknowledged, {standing} versions standing, {entries} entries"
        );
        Assert.Empty(promises.Faults);
        Assert.InRange(promises.Versions.Count, Rounds, int.MaxValue);
        Assert.InRange(promises.Reports.Count, Tier.Of(0, 1), int.MaxValue);
        Assert.InRange(midway, Rounds / 4, Rounds);

        async Task<bool> LoadUntilAsync(Moment moment, ServedProgram service, HttpClient client)
        {
            using var stop = new CancellationTokenSource();
            var seeds = Enumerable.Range(0, Senders).Select(_ => random.Next()).ToList();
            var senders = seeds.ConvertAll(one =>
                new Sender(promises, () => Interlocked.Increment(ref number), new Random(one)).SendAsync(
                    () => client,
                    stop.Token
                )
            );
            var before = promises.Versions.Count;
            await AnsweredAsync(promises, before + random.Next(1, AnsweredMost));
            await moment.ComesAsync(folder, random);
            var waiting = promises.Unanswered.Count;
            await service.KillAsync();
            await stop.CancelAsync();
            await Task.WhenAll(senders);
            return promises.Unanswered.Count > waiting || promises.Versions.Count == before;
        }
    }

    // The first answers of a program that has just started take longest: without them most kills would meet no filing.
    private static async Task AnsweredAsync(Promises promises, int wanted)
    {
        var waited = Stopwatch.StartNew();
        while (promises.Versions.Count < wanted && waited.Elapsed < Patience)
        {
            await Task.Delay(5);
        }
    }

    [SkippableFact]
    public async Task Serve_KilledInItsFirstStarts_ComesUpInTheEnd()
    {
        Skip.If(OperatingSystem.IsWindows(), "there is no signal 9");
        var seed = Environment.TickCount;
        var random = new Random(seed);
        using var folder = new DataFolder();
        for (var start = 0; start < Starts; start++)
        {
            using var service = ServedProgram.Launch(folder.Data);
            await Moment.AsItStarts.ComesAsync(folder, random);
            Assert.False(service.IsOver, $"seed {seed}, start {start}: {service.Complaints}");
            await service.KillAsync();
        }

        using var last = await ServedProgram.StartAsync(folder.Data);
        using var client = await last.ClientAsync(folder.NewKey());
        var promises = new Promises();
        Assert.Equal(0, await KeptPromises.AssertVersionsAsync(client, promises, $"seed {seed}"));
    }
}
