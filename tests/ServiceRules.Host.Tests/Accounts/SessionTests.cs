using Microsoft.Extensions.DependencyInjection;
using ServiceRules.Application.Accounts;
using ServiceRules.Host.Accounts;

namespace ServiceRules.Host.Tests.Accounts;

public sealed class SessionTests(SharedService shared) : IClassFixture<SharedService>
{
    private const string Wrong = "not the password";

    private readonly ServiceRun _run = shared.Run;

    private IAccountStore Accounts => _run.Get<IAccountStore>();

    private async Task<T> AtTheDeskAsync<T>(Func<AccountDesk, Task<T>> work)
    {
        await using var scope = _run.Service.Services.CreateAsyncScope();
        return await work(scope.ServiceProvider.GetRequiredService<AccountDesk>());
    }

    private Task<string> AccountAsync(string name, Roles roles, string? person = null) =>
        AtTheDeskAsync(desk => desk.PutAsync(name, roles, person, AccountAct.Machine));

    private Account Named(string name) => Accounts.Accounts().Single(account => account.Name == name);

    [Fact]
    public async Task SignIn_RightPassword_OpensWhatTheRoleOpensWithAGuardedCookie()
    {
        var password = await AccountAsync("lead.a", Roles.Lead);
        using var browser = new Browser(_run);

        using var answer = await browser.SendAsync(
            "sign-in",
            "sign-in",
            ("name", "Lead.A"),
            ("password", password),
            ("then", "/records")
        );

        Assert.Equal(303, (int)answer.StatusCode);
        Assert.Equal("/records", answer.Headers.Location!.ToString());
        var cookie = Assert.Single(
            answer.Headers.GetValues("Set-Cookie"),
            one => one.StartsWith("servicerules=", StringComparison.Ordinal)
        );
        Assert.Contains("httponly", cookie, StringComparison.OrdinalIgnoreCase);
        Assert.Contains("samesite=strict", cookie, StringComparison.OrdinalIgnoreCase);
        Assert.Equal(200, await browser.StatusAsync("records"));
        Assert.Equal(200, await browser.StatusAsync("api/findings"));
        Assert.Equal(403, await browser.StatusAsync("people"));
        using var page = await browser.GetAsync("records");
        Assert.True(page.Headers.CacheControl!.NoStore);
    }

    [Theory]
    [InlineData("https://shop.example/")]
    [InlineData("//shop.example/")]
    [InlineData("/\\shop.example/")]
    [InlineData("/records\u00e9")]
    [InlineData("")]
    public async Task SignIn_AskedToLeadElsewhere_LeadsToTheStart(string then)
    {
        var password = await AccountAsync("lead.b", Roles.Lead);
        using var browser = new Browser(_run);

        using var answer = await browser.SendAsync(
            "sign-in",
            "sign-in",
            ("name", "lead.b"),
            ("password", password),
            ("then", then)
        );

        Assert.Equal("/", answer.Headers.Location!.ToString());
    }

    [Fact]
    public async Task SignIn_FiveWrongTries_LocksAndTheRightPasswordOpensNothingForAWhile()
    {
        var password = await AccountAsync("guessed", Roles.Lead);
        using var browser = new Browser(_run);

        for (var tries = 0; tries < 5; tries++)
        {
            Assert.Equal(422, await browser.SignInAsync("guessed", Wrong));
        }

        Assert.Equal(422, await browser.SignInAsync("guessed", password));
        var account = Named("guessed");
        var act = Assert.Single(
            Accounts.Acts(null, 1000),
            one => one.What == AccountAct.SignInLocked && one.About == AccountAct.OfAccount(account.Id)
        );
        Assert.Equal(AccountAct.Nobody, act.By);
        var locked = account.LockedUntil!.Value - TimeProvider.System.GetUtcNow();
        Assert.InRange(locked, TimeSpan.FromMinutes(13), TimeSpan.FromMinutes(15));

        // As it is a quarter of an hour later.
        Assert.NotNull(
            Accounts.Write(writing =>
                writing.Replace(account with { LockedUntil = TimeProvider.System.GetUtcNow() })
            )
        );
        Assert.Equal(303, await browser.SignInAsync("guessed", password));
    }

    [Fact]
    public async Task SignIn_ManyGuessesAtOnce_AreAllCounted()
    {
        var password = await AccountAsync("guessed-at-once", Roles.Lead);
        _ = await Task.WhenAll(Enumerable.Range(0, 6).Select(_ => TryAsync("guessed-at-once", Wrong)));

        Assert.Equal(422, await TryAsync("guessed-at-once", password));
    }

    [Fact]
    public async Task SignIn_NobodyOfThatName_IsToldTheSameAsAWrongPassword()
    {
        _ = await AccountAsync("somebody", Roles.Lead);
        using var browser = new Browser(_run);

        using var none = await browser.SendAsync("sign-in", "sign-in", ("name", "x"), ("password", Wrong));
        using var wrong = await browser.SendAsync(
            "sign-in",
            "sign-in",
            ("name", "somebody"),
            ("password", Wrong)
        );

        Assert.Equal(none.StatusCode, wrong.StatusCode);
        Assert.Equal(
            Told(await none.Content.ReadAsStringAsync()),
            Told(await wrong.Content.ReadAsStringAsync())
        );
    }

    [Fact]
    public async Task Form_WithoutTheTokenOfItsPage_IsRefused()
    {
        var password = await AccountAsync("admin.form", Roles.Administrator);
        using var browser = new Browser(_run);
        Assert.Equal(303, await browser.SignInAsync("admin.form", password));

        using var bare = await browser.SendBareAsync("people", ("name", "forged"), ("role", "lead"));
        using var good = await browser.SendAsync("people", "people", ("name", "added"), ("role", "lead"));

        Assert.Equal(403, (int)bare.StatusCode);
        Assert.Equal(200, (int)good.StatusCode);
        Assert.DoesNotContain(Accounts.Accounts(), account => account.Name == "forged");
        Assert.Equal(Roles.Lead, Named("added").Roles);
    }

    [Fact]
    public async Task Session_OfSomebodyWhoseRolesAreChanged_OpensTheNewOnesAtOnce()
    {
        var password = await AccountAsync("changed", Roles.Lead);
        using var browser = new Browser(_run);
        Assert.Equal(303, await browser.SignInAsync("changed", password));
        Assert.Equal(200, await browser.StatusAsync("api/findings"));

        Assert.True(
            (
                await AtTheDeskAsync(desk =>
                    desk.GrantAsync(Named("changed").Id, Roles.Technician, "tech-01", AccountAct.Machine)
                )
            ).IsDone
        );

        Assert.Equal(403, await browser.StatusAsync("api/findings"));
        Assert.Equal(200, await browser.StatusAsync("records"));
    }

    [Fact]
    public async Task Session_OfSomebodyWhoIsLockedResetOrRemoved_Ends()
    {
        Func<AccountDesk, string, Task<DeskOutcome>>[] ends =
        [
            (desk, id) => desk.LockAsync(id, AccountAct.Machine),
            (desk, id) => desk.ResetAsync(id, AccountAct.Machine),
            (desk, id) => desk.RemoveAsync(id, AccountAct.Machine),
        ];
        foreach (var end in ends)
        {
            await EndedAsync(end);
        }
    }

    private async Task EndedAsync(Func<AccountDesk, string, Task<DeskOutcome>> end)
    {
        var password = await AccountAsync("ended", Roles.Lead);
        using var browser = new Browser(_run);
        Assert.Equal(303, await browser.SignInAsync("ended", password));
        Assert.Equal(200, await browser.StatusAsync("records"));

        Assert.True((await AtTheDeskAsync(desk => end(desk, Named("ended").Id))).IsDone);

        Assert.Equal(302, await browser.StatusAsync("records"));
        Assert.Equal(401, await browser.StatusAsync("api/records"));
        Assert.Equal(422, await browser.SignInAsync("ended", password));
    }

    [Fact]
    public async Task SignOut_EndsTheSessionAtEveryScreen()
    {
        var password = await AccountAsync("out", Roles.Lead);
        using var one = new Browser(_run);
        using var other = new Browser(_run);
        Assert.Equal(303, await one.SignInAsync("out", password));
        Assert.Equal(303, await other.SignInAsync("out", password));

        using var answer = await one.SendAsync("account", "account/sign-out");

        Assert.Equal(303, (int)answer.StatusCode);
        Assert.Equal(302, await one.StatusAsync("records"));
        Assert.Equal(302, await other.StatusAsync("records"));
    }

    [Fact]
    public async Task FirstPassword_OfSomebodyWhoWasAdded_IsChangedBeforeAnythingElse()
    {
        var added = await AtTheDeskAsync(desk =>
            desk.AddAsync("new.one", Roles.Lead, null, AccountAct.Machine)
        );
        using var browser = new Browser(_run);
        Assert.Equal(303, await browser.SignInAsync("new.one", added.Secret!));

        using var led = await browser.GetAsync("records");
        Assert.Equal("/account", led.Headers.Location!.ToString());
        Assert.Equal(403, await browser.StatusAsync("api/records"));
        Assert.Equal(422, await ChangeAsync(browser, added.Secret!, "short"));
        Assert.Equal(422, await ChangeAsync(browser, added.Secret!, added.Secret!));
        Assert.Equal(422, await ChangeAsync(browser, Wrong, "a long enough one"));
        Assert.Equal(200, await ChangeAsync(browser, added.Secret!, "a long enough one"));

        Assert.Equal(200, await browser.StatusAsync("records"));
        Assert.Equal(422, await browser.SignInAsync("new.one", added.Secret!));
    }

    [Fact]
    public async Task OldPassword_GuessedOverAnOpenSession_LocksToo()
    {
        var password = await AccountAsync("left-open", Roles.Lead);
        using var browser = new Browser(_run);
        Assert.Equal(303, await browser.SignInAsync("left-open", password));

        for (var tries = 0; tries < 5; tries++)
        {
            Assert.Equal(422, await ChangeAsync(browser, Wrong, "a long enough one"));
        }

        Assert.Equal(422, await ChangeAsync(browser, password, "a long enough one"));
    }

    [Fact]
    public async Task LastAdministrator_IsNeitherLockedNorRemovedNorMadeSomethingElse()
    {
        await using var run = await ServiceRun.StartAsync();
        await using var scope = run.Service.Services.CreateAsyncScope();
        var desk = scope.ServiceProvider.GetRequiredService<AccountDesk>();
        _ = await desk.PutAsync("only", Roles.Administrator, null, AccountAct.Machine);
        var id = run.Get<IAccountStore>().Accounts()[0].Id;

        Assert.False((await desk.LockAsync(id, "key:x")).IsDone);
        Assert.False((await desk.RemoveAsync(id, "key:x")).IsDone);
        Assert.False((await desk.GrantAsync(id, Roles.Lead, null, "key:x")).IsDone);

        _ = await desk.PutAsync("second", Roles.Administrator, null, AccountAct.Machine);
        Assert.True((await desk.LockAsync(id, "key:x")).IsDone);
    }

    private async Task<int> TryAsync(string name, string password)
    {
        using var browser = new Browser(_run);
        return await browser.SignInAsync(name, password);
    }

    private static async Task<int> ChangeAsync(Browser browser, string old, string given)
    {
        using var answer = await browser.SendAsync(
            "account",
            "account/password",
            ("old", old),
            ("new", given)
        );
        return (int)answer.StatusCode;
    }

    private static string Told(string page) =>
        page[page.IndexOf("<ul>", StringComparison.Ordinal)..page.IndexOf("</ul>", StringComparison.Ordinal)];
}
