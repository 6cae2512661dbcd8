using System.Collections.Concurrent;
using System.Diagnostics;
using System.Globalization;
using ServiceRules.Application.Demo;
using ServiceRules.Application.Library;
using ServiceRules.Formats.Records;
using ServiceRules.TestKit;
using Xunit.Abstractions;

namespace ServiceRules.Crash.Tests;

/// <summary>
/// What a record costs to judge, file and answer: processor time of the service and of the database, and room on the disk.
/// Nothing here is held to a time; the figures stand in the plan of operations.
/// </summary>
public sealed class CostTests(ITestOutputHelper told)
{
    /// <summary>More than the service has processors, so that filings share a commit as they do under load.</summary>
    private const int Senders = 8;

    private const int Instances = 2;

    /// <summary>A machine that has just begun still compiles itself.</summary>
    private static readonly int WarmUp = Tier.Of(4, 192);

    private static readonly int Most = Tier.Of(12, int.MaxValue);

    private static readonly int PartsOfAGrowingStore = Tier.Of(2, 10);

    private static readonly int RecordsOfAPart = Tier.Of(5, 1_000);

    [SkippableFact]
    public async Task Serve_SeasonsOfAShopOnSqlite_TellsWhatARecordCosts()
    {
        Skip.IfNot(OperatingSystem.IsLinux(), "what a process used is read from /proc");
        using var folder = new DataFolder();
        using var service = await ServedProgram.StartAsync(folder.Data);
        using var client = await service.ClientAsync(folder.NewKey());
        var jobs = Seasons();

        await FileAllAsync([client], jobs[..WarmUp]);
        var before = ProcessorTime.Of(service.ProcessId);
        var room = BytesOf(folder.Ledger);
        var (_, waited) = await FileAllAsync([client], jobs[WarmUp..]);
        var used = ProcessorTime.Of(service.ProcessId) - before;
        room = BytesOf(folder.Ledger) - room;

        var records = jobs.Length - WarmUp;
        told.WriteLine(
            string.Create(
                CultureInfo.InvariantCulture,
                $"SQLite, {records} records of the demo: {Each(used, records)} of the service and {room / records / 1024} KiB each; {waited}"
            )
        );
        // Once it is verified nothing waits in the log of the database any more.
        Assert.InRange(folder.Entries(), 2L * jobs.Length, long.MaxValue);
    }

    [SkippableFact]
    public async Task Serve_SeasonsOfAShopOnPostgres_TellsWhatARecordCosts()
    {
        Skip.IfNot(OperatingSystem.IsLinux(), "what a process used is read from /proc");
        using var server = PostgresServer.Require();
        using var shop = await SharedShop.OpenAsync(server, Instances);
        var jobs = Seasons();

        await FileAllAsync(shop.Clients, jobs[..WarmUp]);
        var before = OfAll(shop);
        var database = server.ProcessorTime();
        var room = server.DatabaseBytes();
        var (_, waited) = await FileAllAsync(shop.Clients, jobs[WarmUp..]);
        var used = OfAll(shop) - before;
        database = server.ProcessorTime() - database;
        room = server.DatabaseBytes() - room;

        var records = jobs.Length - WarmUp;
        told.WriteLine(
            string.Create(
                CultureInfo.InvariantCulture,
                $"PostgreSQL, instances: {Instances}, {records} records of the demo: {Each(used, records)} of the services, "
                    + $"{Each(database, records)} of the database and {room / records / 1024} KiB each; {waited}"
            )
        );
        Assert.InRange(shop.Folders[0].Entries(), 2L * jobs.Length, long.MaxValue);
    }

    [SkippableFact]
    public async Task Serve_StoreThatGrows_TellsWhetherARecordCostsMore()
    {
        Skip.IfNot(OperatingSystem.IsLinux(), "what a process used is read from /proc");
        using var folder = new DataFolder();
        using var service = await ServedProgram.StartAsync(folder.Data);
        using var client = await service.ClientAsync(folder.NewKey());
        var each = new List<string>();
        for (var part = 0; part < PartsOfAGrowingStore; part++)
        {
            var jobs = Enumerable.Range(part * RecordsOfAPart, RecordsOfAPart).Select(Job.Of).ToArray();
            var before = ProcessorTime.Of(service.ProcessId);
            await FileAllAsync([client], jobs);
            each.Add(Each(ProcessorTime.Of(service.ProcessId) - before, RecordsOfAPart));
        }

        told.WriteLine(
            string.Create(
                CultureInfo.InvariantCulture,
                $"SQLite, a small record, by each further {RecordsOfAPart} stored: {string.Join(", ", each)}"
            )
        );
        Assert.InRange(folder.Entries(), 2L * PartsOfAGrowingStore * RecordsOfAPart, long.MaxValue);
    }

    private static byte[][] Seasons()
    {
        var site = RuleFolder.Load(ReferenceFiles.InRepository("rules")).Site!;
        return
        [
            .. DemoScenario
                .Make(DemoScenario.UsualSeed, site)
                .Take(Most)
                .Select(job => RecordFormat.Current.Write(job.Record)),
        ];
    }

    private static async Task<(TimeSpan All, string Waited)> FileAllAsync(
        List<HttpClient> clients,
        byte[][] jobs
    )
    {
        var waiting = new ConcurrentQueue<byte[]>(jobs);
        var times = new ConcurrentBag<TimeSpan>();
        var clock = Stopwatch.StartNew();
        await Task.WhenAll(
            Enumerable
                .Range(0, Senders)
                .Select(async sender =>
                {
                    var client = clients[sender % clients.Count];
                    while (waiting.TryDequeue(out var job))
                    {
                        var one = Stopwatch.StartNew();
                        using var content = new ByteArrayContent(job);
                        content.Headers.ContentType = new("application/json");
                        using var answer = await client.PostAsync(
                            new Uri("api/records", UriKind.Relative),
                            content
                        );
                        Assert.True(answer.IsSuccessStatusCode, await answer.Content.ReadAsStringAsync());
                        times.Add(one.Elapsed);
                    }
                })
        );
        var sorted = times.Order().ToList();
        return (
            clock.Elapsed,
            string.Create(
                CultureInfo.InvariantCulture,
                $"{jobs.Length / clock.Elapsed.TotalSeconds:0.0} a second by {Senders} senders, half answered within "
                    + $"{sorted[sorted.Count / 2].TotalMilliseconds:0} ms, 99 of 100 within {sorted[sorted.Count * 99 / 100].TotalMilliseconds:0} ms"
            )
        );
    }

    private static string Each(TimeSpan used, int records) =>
        string.Create(CultureInfo.InvariantCulture, $"{used.TotalMilliseconds / records:0.0} ms");

    private static TimeSpan OfAll(SharedShop shop) =>
        shop.Programs.Aggregate(TimeSpan.Zero, (sum, one) => sum + ProcessorTime.Of(one.ProcessId));

    private static long BytesOf(string folder) =>
        new DirectoryInfo(folder).EnumerateFiles("*", SearchOption.AllDirectories).Sum(file => file.Length);
}
