using ServiceRules.Application.Accounts;

namespace ServiceRules.Host.Tests.Sites;

/// <summary>An instance that was started for one site, of an installation that another instance made one of several.</summary>
public sealed class BecameSeveralTests
{
    [Theory]
    [InlineData("api/records")]
    [InlineData("api/judgements")]
    public async Task InstanceFromBefore_LetsNobodyInUntilItIsStartedAgain(string path)
    {
        await using var run = await ServiceRun.StartAsync();
        using var before = await run.PostAsync("api/records", TwoSites.Job("J-before", "13"));
        Assert.Equal(201, (int)before.StatusCode);
        using var nobody = run.ClientWith(null);
        Assert.Equal((200, "ready"), await SitesAsync());

        SiteSettling.Settle(
            run.Get<IAccountStore>(),
            [TwoSites.First, TwoSites.Second],
            DateTimeOffset.UtcNow
        );
        using var sent = await run.PostAsync(path, TwoSites.Job("J-after", "13"));
        using var ofSecond = run.ClientWith(run.NewKey(Roles.Officer, site: TwoSites.Second));
        var read = await TwoSites.GetAsync(ofSecond, "api/records/J-before");

        Assert.Equal((503, 503), ((int)sent.StatusCode, read.Status));
        var told = await sent.Content.ReadAsStringAsync();
        Assert.Contains("has to be started again", told, StringComparison.Ordinal);
        Assert.Contains("/api#problem-storage", told, StringComparison.Ordinal);
        Assert.Equal((503, "not ready"), await SitesAsync());
        Assert.True(run.Get<Application.Ledger.OpenLedger>().Log.About("J-after").IsEmpty);

        async Task<(int, string?)> SitesAsync()
        {
            using var answer = await nobody.GetAsync(new Uri("health/ready", UriKind.Relative));
            var told = await ServiceRun.JsonAsync(answer);
            return (
                (int)answer.StatusCode,
                told.GetProperty("parts").GetProperty("sites").GetProperty("status").GetString()
            );
        }
    }
}
