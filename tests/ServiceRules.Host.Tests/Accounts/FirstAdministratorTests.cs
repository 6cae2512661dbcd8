using ServiceRules.Application.Accounts;

namespace ServiceRules.Host.Tests.Accounts;

public sealed class FirstAdministratorTests : IDisposable
{
    private const string Password = "a long enough one";

    private readonly string _folder = Directory.CreateTempSubdirectory("servicerules-host-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    private static async Task<int> UseAsync(ServiceRun run, string secret, string name, string password)
    {
        using var browser = new Browser(run);
        using var answer = await browser.SendAsync(
            "first-administrator",
            "first-administrator",
            ("secret", secret),
            ("name", name),
            ("password", password)
        );
        return (int)answer.StatusCode;
    }

    [Fact]
    public async Task Secret_OfTheFirstStart_MakesOneAdministratorAndNoSecond()
    {
        await using (var run = await ServiceRun.StartAsync(_folder))
        {
            var secret = run.Service.WaysIn.FirstSecret!;
            Assert.Equal(422, await UseAsync(run, "another", "admin", Password));
            Assert.Equal(422, await UseAsync(run, secret, "admin", "short"));
            Assert.Equal(303, await UseAsync(run, secret, "admin", Password));
            Assert.Equal(422, await UseAsync(run, secret, "second", Password));

            using var browser = new Browser(run);
            Assert.Equal(303, await browser.SignInAsync("admin", Password));
            Assert.Equal(200, await browser.StatusAsync("people"));
            // Accounts and keys, and no records.
            Assert.Equal(403, await browser.StatusAsync("records"));
            Assert.Equal(
                [AccountAct.FirstAdministrator, AccountAct.KeyMade, AccountAct.FirstSecretMade],
                run.Get<IAccountStore>().Acts(null, 10).Select(act => act.What)
            );
        }

        await using var again = await ServiceRun.StartAsync(_folder);
        Assert.Null(again.Service.WaysIn.FirstSecret);
    }

    [Fact]
    public async Task Secret_UsedByManyAtOnce_MakesOne()
    {
        await using var run = await ServiceRun.StartAsync(_folder);
        var secret = run.Service.WaysIn.FirstSecret!;

        var statuses = await Task.WhenAll(
            Enumerable.Range(0, 5).Select(at => UseAsync(run, secret, $"admin-{at}", Password))
        );

        Assert.Equal(1, statuses.Count(status => status == 303));
        Assert.Single(run.Get<IAccountStore>().Accounts());
    }

    [Fact]
    public async Task Secret_NotUsed_IsAnotherAtTheNextStart()
    {
        string first;
        await using (var run = await ServiceRun.StartAsync(_folder))
        {
            first = run.Service.WaysIn.FirstSecret!;
        }

        await using var again = await ServiceRun.StartAsync(_folder);

        Assert.NotEqual(first, again.Service.WaysIn.FirstSecret);
        Assert.Equal(422, await UseAsync(again, first, "admin", Password));
        Assert.Equal(303, await UseAsync(again, again.Service.WaysIn.FirstSecret!, "admin", Password));
    }

    [Fact]
    public async Task Secret_AfterAnHour_IsNoLongerGood()
    {
        var clock = new MovedClock();
        await using var run = await ServiceRun.StartAsync(
            _folder,
            settings => settings with { Clock = clock }
        );

        clock.Ahead = TimeSpan.FromHours(1);

        Assert.Equal(422, await UseAsync(run, run.Service.WaysIn.FirstSecret!, "admin", Password));
    }

    [Fact]
    public async Task Secret_DrawnOnTheMachineWhileTheServiceRuns_IsGood()
    {
        await using var run = await ServiceRun.StartAsync(_folder);
        Assert.Equal(303, await UseAsync(run, run.Service.WaysIn.FirstSecret!, "admin", Password));

        string secret;
        using (var accounts = ServiceAccounts.Open(Path.Combine(_folder, "data"), TimeProvider.System))
        {
            secret = FirstSecrets.Draw(accounts.Store, TimeProvider.System.GetUtcNow());
        }

        Assert.Equal(303, await UseAsync(run, secret, "another", Password));
    }
}
