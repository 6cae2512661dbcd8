using ServiceRules.TestKit;
using Xunit.Abstractions;

namespace ServiceRules.Crash.Tests;

/// <summary>Several instances of the service on one PostgreSQL, each with a private folder of its own.</summary>
public sealed class ManyInstancesTests(ITestOutputHelper told)
{
    private const int Instances = 3;
    private const int Senders = 4;
    private const UnixFileMode Private =
        UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute;

    private static readonly int Kills = Tier.Of(3, 60);
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

    /// <summary>The running instances, and a client of each.</summary>
    private sealed class SharedShop : IDisposable
    {
        private readonly List<ServedProgram> programs = [];
        private string key = "";

        public List<DataFolder> Folders { get; } = [];

        public List<HttpClient> Clients { get; } = [];

        public static async Task<SharedShop> OpenAsync(PostgresServer server, int instances)
        {
            var shop = new SharedShop();
            var first = new DataFolder();
            shop.Folders.Add(first);
            Begin(first, server.NewDatabase());
            // The keys are made by the first, and carried to the others before they start.
            using (var once = await ServedProgram.StartAsync(first.Data))
            {
                shop.key = first.NewKey();
                using var client = await once.ClientAsync(shop.key);
                _ = await client.GetStringAsync(new Uri("api/certificate", UriKind.Relative));
                // And a checkpoint: an instance that keeps none could not tell a log put back from before.
                using var content = new ByteArrayContent(Job.Of(0));
                content.Headers.ContentType = new("application/json");
                using var filed = await client.PostAsync(new Uri("api/records", UriKind.Relative), content);
                Assert.True(filed.IsSuccessStatusCode, await filed.Content.ReadAsStringAsync());
                await once.KillAsync();
            }

            while (shop.Folders.Count < instances)
            {
                shop.Folders.Add(first.Copied());
            }

            foreach (var folder in shop.Folders)
            {
                var program = await ServedProgram.StartAsync(folder.Data);
                shop.programs.Add(program);
                shop.Clients.Add(await program.ClientAsync(shop.key));
            }

            return shop;
        }

        private static void Begin(DataFolder folder, string address)
        {
            if (OperatingSystem.IsWindows())
            {
                throw new SkipException("the folder is made private as Unix has it");
            }

            Directory.CreateDirectory(folder.Ledger, Private);
            File.SetUnixFileMode(folder.Data, Private);
            var place = Path.Combine(folder.Ledger, "postgres.address");
            File.WriteAllText(place, address);
            File.SetUnixFileMode(place, UnixFileMode.UserRead | UnixFileMode.UserWrite);
        }

        public async Task KillAndStartAsync(int instance)
        {
            await programs[instance].KillAsync();
            programs[instance].Dispose();
            programs[instance] = await ServedProgram.StartAsync(Folders[instance].Data);
            // Whoever asks the old one gets no answer, and asks the next.
            Clients[instance] = await programs[instance].ClientAsync(key);
        }

        public void Dispose()
        {
            Clients.ForEach(client => client.Dispose());
            programs.ForEach(program => program.Dispose());
            Folders.ForEach(folder => folder.Dispose());
        }
    }
}
