using System.Collections.Immutable;
using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging;
using ServiceRules.Application.Due;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Notices;
using ServiceRules.Application.Packs;
using ServiceRules.Application.Waiving;
using ServiceRules.Host.Due;
using ServiceRules.Host.Notices;
using ServiceRules.Host.Sites;
using ServiceRules.Host.Tests.Accounts;

namespace ServiceRules.Host.Tests.Due;

/// <summary>What is told of at which site, and when again.</summary>
public sealed class DueDeskTests : IDisposable
{
    private static readonly DateTimeOffset Now = new(2026, 12, 20, 12, 0, 0, TimeSpan.Zero);

    private readonly string _folder = Directory.CreateTempSubdirectory("servicerules-due-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Fact]
    public async Task Work_WhereOneSiteFails_TellsTheOthersWhatFallsDueAtThem()
    {
        await using var run = await StartAsync();
        var store = new DueStoreInMemory();
        var sites = run.Get<ServedSites>();
        var broken = sites.All[0] with
        {
            Rules = new ActiveRules(
                new BrokenRules(),
                new SiteWaivers(run.Get<IWaiverReading>(), sites.All[0].Registers)
            ),
        };
        var work = new DueWork(
            Desk(run, store),
            sites with
            {
                All = [broken, sites.All[1]],
            },
            new MovedClock { Ahead = Now - TimeProvider.System.GetUtcNow() },
            run.Get<IHostApplicationLifetime>(),
            run.Get<ILogger<DueWork>>()
        );

        Assert.NotNull(await work.DoAsync(DueWork.Daily, CancellationToken.None));

        Assert.NotEmpty(store.All);
        Assert.All(store.All, notice => Assert.Equal(Sites.TwoSites.Second, notice.Told.Site));
        Assert.Null(store.Look(Sites.TwoSites.First));
        Assert.NotNull(store.Look(Sites.TwoSites.Second));
    }

    [Fact]
    public async Task Limit_ThatWasComeTo_IsToldOfOnceInEachMonthInWhichItWasRead()
    {
        await using var run = await StartAsync();
        var store = new DueStoreInMemory();
        var desk = Desk(run, store);
        var site = run.Get<ServedSites>().All[0];
        _ = desk.Go(site, CancellationToken.None);
        var look = store.Look(site.Name)!;

        Assert.Equal([1, 0, 1, 0], new[] { "11-20", "11-28", "12-01", "12-19" }.Select(Told));

        int Told(string day)
        {
            // Looked through as it stands, so that it is not looked through anew.
            store.Keep(
                look,
                [
                    new DueThing(
                        site.Name,
                        DueKind.Wear,
                        "U-01-1",
                        DateOnly.ParseExact("2026-" + day, "yyyy-MM-dd", null),
                        DueSource.History
                    )
                    {
                        About = "reel-diameter",
                        IsReached = true,
                    },
                ]
            );
            return desk.Go(site, CancellationToken.None);
        }
    }

    private Task<ServiceRun> StartAsync() =>
        ServiceRun.StartAsync(
            null,
            settings =>
                Sites.TwoSites.WithSecond(settings, _folder) with
                {
                    Clock = new MovedClock { Ahead = Now - TimeProvider.System.GetUtcNow() },
                }
        );

    private static DueDesk Desk(ServiceRun run, DueStoreInMemory store) =>
        new(
            run.Get<OpenLedger>(),
            store,
            new NoticeRecipients([new("workshop", []) { OnDue = true }]),
            new byte[32],
            new MovedClock { Ahead = Now - TimeProvider.System.GetUtcNow() },
            new NoticeBell()
        );

    private sealed class BrokenRules : IRulesStore
    {
        public RulesActivation? InForce() => throw new LedgerStoreException(StoreTrouble.Damaged, "broken");

        public ImmutableArray<RulesActivation> Activations(int most) => [];

        public ImmutableArray<StoredRules> Stored(int most) => [];

        public ReadOnlyMemory<byte>? Book(string digest) => null;

        public RulesActivation Begin(
            string digest,
            ReadOnlyMemory<byte> book,
            DateTimeOffset at,
            string reason
        ) => throw new NotSupportedException();
    }
}
