using ServiceRules.Application.Accounts;
using ServiceRules.Host.Tests.Accounts;

namespace ServiceRules.Host.Tests.Providers;

/// <summary>Who gets in by a provider, how they are led, and what ends it.</summary>
public sealed class ProviderTests
{
    private static async Task<string> TextAsync(HttpResponseMessage answer) =>
        await answer.Content.ReadAsStringAsync();

    [Fact]
    public async Task SignIn_OfSomebodyWithAnAccount_OpensWhatTheRoleOpensAndNothingElse()
    {
        await using var shop = await ProviderShop.OpenAsync();
        _ = await shop.AddAsync("lead.there", "subject-1");
        using var browser = new Browser(shop.Run);

        using var answer = await shop.SignInAsync(browser);

        Assert.Equal(200, (int)answer.StatusCode);
        // Led on by the page itself: a browser that comes from another site would send no session along.
        Assert.Equal("0; url=/records?limit=5", answer.Headers.GetValues("Refresh").Single());
        Assert.Contains("href=\"/records?limit=5\"", await TextAsync(answer), StringComparison.Ordinal);
        var cookie = Assert.Single(
            answer.Headers.GetValues("Set-Cookie"),
            one => one.StartsWith("servicerules=", StringComparison.Ordinal)
        );
        Assert.Contains("httponly", cookie, StringComparison.OrdinalIgnoreCase);
        Assert.Contains("samesite=strict", cookie, StringComparison.OrdinalIgnoreCase);
        Assert.True(answer.Headers.CacheControl!.NoStore);
        Assert.Equal(200, await browser.StatusAsync("records"));
        Assert.Equal(403, await browser.StatusAsync("people"));
        Assert.Equal("login", shop.Provider.Asked["prompt"]);
        Assert.Equal("openid", shop.Provider.Asked["scope"]);
    }

    [Fact]
    public async Task Page_ToSignIn_ShowsTheWayOnlyWhereThereIsOne()
    {
        await using var shop = await ProviderShop.OpenAsync();
        using (var browser = new Browser(shop.Run))
        {
            using var shown = await browser.GetAsync("sign-in?then=%2Frecords");
            Assert.Contains(
                "<a href=\"/sign-in/elsewhere?then=%2Frecords\">Sign in with County sign-in</a>",
                await TextAsync(shown),
                StringComparison.Ordinal
            );
        }

        await shop.RestartAsync(null);
        using var after = new Browser(shop.Run);
        using var bare = await after.GetAsync("sign-in");
        Assert.DoesNotContain("elsewhere", await TextAsync(bare), StringComparison.Ordinal);
        Assert.Equal(404, await after.StatusAsync("sign-in/elsewhere"));
    }

    [Fact]
    public async Task SignIn_OfSomebodyTheProviderAloneKnows_OpensNothingAndTellsWhatItCallsThem()
    {
        await using var shop = await ProviderShop.OpenAsync();
        _ = await shop.AddAsync("other", "subject-2");
        // An account with a password that is called as the provider calls them is not theirs.
        _ = await shop.AtTheDeskAsync(desk =>
            desk.PutAsync("subject-1", Roles.Administrator, null, AccountAct.Machine)
        );
        using var browser = new Browser(shop.Run);

        using var answer = await shop.SignInAsync(browser);

        Assert.Equal(422, (int)answer.StatusCode);
        Assert.Contains("subject-1", await TextAsync(answer), StringComparison.Ordinal);
        Assert.Equal(302, await browser.StatusAsync("records"));
    }

    [Fact]
    public async Task Session_OfSomebodyWhoIsLockedChangedOrRemoved_EndsAtOnce()
    {
        await using var shop = await ProviderShop.OpenAsync();
        var account = await shop.AddAsync("ended", "subject-1");
        using var browser = new Browser(shop.Run);
        using (await shop.SignInAsync(browser)) { }

        Assert.Equal(200, await browser.StatusAsync("api/findings"));
        _ = await shop.AtTheDeskAsync(desk =>
            desk.GrantAsync(account.Id, Roles.Technician, "tech-01", AccountAct.Machine)
        );
        Assert.Equal(403, await browser.StatusAsync("api/findings"));

        _ = await shop.AtTheDeskAsync(desk => desk.LockAsync(account.Id, AccountAct.Machine));
        Assert.Equal(302, await browser.StatusAsync("records"));
        using (var locked = await shop.SignInAsync(browser))
        {
            Assert.Equal(422, (int)locked.StatusCode);
        }

        _ = await shop.AtTheDeskAsync(desk => desk.UnlockAsync(account.Id, AccountAct.Machine));
        using (await shop.SignInAsync(browser)) { }

        Assert.Equal(200, await browser.StatusAsync("records"));
        _ = await shop.AtTheDeskAsync(desk => desk.RemoveAsync(account.Id, AccountAct.Machine));
        Assert.Equal(302, await browser.StatusAsync("records"));
        using var removed = await shop.SignInAsync(browser);
        Assert.Equal(422, (int)removed.StatusCode);
    }

    [Fact]
    public async Task SignOut_EndsTheSessionHereAtEveryScreen()
    {
        await using var shop = await ProviderShop.OpenAsync();
        _ = await shop.AddAsync("out", "subject-1");
        using var one = new Browser(shop.Run);
        using var other = new Browser(shop.Run);
        using (await shop.SignInAsync(one)) { }

        using (await shop.SignInAsync(other)) { }

        using (var page = await one.GetAsync("account"))
        {
            var text = await TextAsync(page);
            Assert.Contains("County sign-in", text, StringComparison.Ordinal);
            Assert.DoesNotContain("type=\"password\"", text, StringComparison.Ordinal);
        }

        using var left = await one.SendAsync("account", "account/sign-out");

        Assert.Equal("/sign-in", left.Headers.Location!.ToString());
        Assert.Equal(302, await one.StatusAsync("records"));
        Assert.Equal(302, await other.StatusAsync("records"));
    }

    [Fact]
    public async Task Account_ThatSignsInElsewhere_HasNoPasswordUntilOneIsGiven()
    {
        await using var shop = await ProviderShop.OpenAsync();
        var password = await shop.AtTheDeskAsync(desk =>
            desk.PutAsync("moved", Roles.Lead, null, AccountAct.Machine)
        );
        var id = shop.Accounts.Accounts().Single().Id;
        using var browser = new Browser(shop.Run);
        Assert.Equal(303, await browser.SignInAsync("moved", password));

        var moved = await shop.AtTheDeskAsync(desk =>
            desk.SignInElsewhereAsync(id, " subject-1 ", AccountAct.Machine)
        );

        Assert.Empty(moved.Problems);
        Assert.Equal(302, await browser.StatusAsync("records"));
        Assert.Equal(422, await browser.SignInAsync("moved", password));
        Assert.Equal(422, await browser.SignInAsync("moved", ""));
        Assert.Equal(0, shop.Accounts.Account(id)!.Failures);
        using (await shop.SignInAsync(browser)) { }

        Assert.Equal(200, await browser.StatusAsync("records"));
        Assert.Equal(AccountAct.SignsInElsewhere, shop.Accounts.Acts(null, 1)[0].What);

        var given = await shop.AtTheDeskAsync(desk => desk.ResetAsync(id, AccountAct.Machine));
        Assert.Equal(302, await browser.StatusAsync("records"));
        Assert.Null(shop.Accounts.Account(id)!.Elsewhere);
        using var refused = await shop.SignInAsync(browser);
        Assert.Equal(422, (int)refused.StatusCode);
        Assert.Equal(303, await browser.SignInAsync("moved", given.Secret!));
    }

    [Fact]
    public async Task People_AtThePage_AreAddedForTheProviderAndEachOfItsNamesOnce()
    {
        await using var shop = await ProviderShop.OpenAsync();
        var password = await shop.AtTheDeskAsync(desk =>
            desk.PutAsync("admin", Roles.Administrator, null, AccountAct.Machine)
        );
        using var browser = new Browser(shop.Run);
        Assert.Equal(303, await browser.SignInAsync("admin", password));

        using var added = await browser.SendAsync(
            "people",
            "people",
            ("name", "there"),
            ("elsewhere", "subject-1"),
            ("role", "lead")
        );
        using var twice = await browser.SendAsync(
            "people",
            "people",
            ("name", "again"),
            ("elsewhere", "subject-1"),
            ("role", "lead")
        );
        using var tooLong = await browser.SendAsync(
            "people",
            "people",
            ("name", "long"),
            ("elsewhere", new string('x', 256)),
            ("role", "lead")
        );

        Assert.Equal(303, (int)added.StatusCode);
        Assert.Equal(422, (int)twice.StatusCode);
        Assert.Equal(422, (int)tooLong.StatusCode);
        Assert.Equal(2, shop.Accounts.Accounts().Length);
        var there = shop.Accounts.Accounts().Single(account => account.Name == "there");
        Assert.Null(there.Password);
        using var moved = await browser.SendAsync(
            "people",
            $"people/{there.Id}/elsewhere",
            ("elsewhere", "subject-9")
        );
        Assert.Equal(303, (int)moved.StatusCode);
        Assert.Equal("subject-9", shop.Accounts.Account(there.Id)!.Elsewhere!.Name);
    }

    [Fact]
    public async Task Account_OfAnotherProviderOrClaim_IsNotOpened()
    {
        await using var shop = await ProviderShop.OpenAsync();
        _ = await shop.AddAsync("before", "subject-1");
        shop.Provider.Claims["name"] = "subject-1";
        await shop.RestartAsync(ProviderShop.Settings(shop.Provider.Authority, "name"));
        using var browser = new Browser(shop.Run);

        using var answer = await shop.SignInAsync(browser);

        Assert.Equal(422, (int)answer.StatusCode);
        Assert.Equal("openid profile", shop.Provider.Asked["scope"]);
    }

    [Fact]
    public async Task Mail_ThatTheProviderHasNotVerified_OpensNothing()
    {
        await using var shop = await ProviderShop.OpenAsync("email");
        _ = await shop.AddAsync("by.mail", "Lead@Shop.Example");
        using var browser = new Browser(shop.Run);
        shop.Provider.Claims["email"] = "lead@shop.example";

        using (var untold = await shop.SignInAsync(browser))
        {
            Assert.Equal(422, (int)untold.StatusCode);
        }

        shop.Provider.Claims["email_verified"] = false;
        using (var unverified = await shop.SignInAsync(browser))
        {
            Assert.Equal(422, (int)unverified.StatusCode);
        }

        shop.Provider.Claims["email_verified"] = true;
        using var verified = await shop.SignInAsync(browser);
        Assert.Equal(200, (int)verified.StatusCode);
        Assert.Equal(200, await browser.StatusAsync("records"));
    }

    [Fact]
    public async Task Provider_ThatIsAway_IsToldInPlainWordsAndComesBackWithoutARestart()
    {
        var provider = await TestProvider.StartAsync();
        var place = Directory.CreateTempSubdirectory("servicerules-provider-").FullName;
        var port = provider.Authority.Port;
        ProviderShop.Write(place, ProviderShop.Settings(provider.Authority));
        await provider.DisposeAsync();
        await using (var run = await ServiceRun.StartAsync(place))
        {
            using var browser = new Browser(run);
            using var answer = await browser.GetAsync(ProviderShop.Way);
            Assert.Equal(422, (int)answer.StatusCode);
            Assert.Contains("does not answer", await TextAsync(answer), StringComparison.Ordinal);
            Assert.Equal(200, await browser.StatusAsync("sign-in"));

            await using var back = await TestProvider.StartAsync(port);
            Assert.Equal(302, await browser.StatusAsync(ProviderShop.Way));
        }

        Directory.Delete(place, recursive: true);
    }

    [Theory]
    [InlineData("""{ "format": "service-sign-in/1" }""", "cannot be read")]
    [InlineData("", "cannot be read")]
    [InlineData("null", "says nothing")]
    [InlineData("AUTHORITY http://id.example", "authority")]
    [InlineData("AUTHORITY https://me:pw@id.example", "authority")]
    [InlineData("AUTHORITY https://id.example/?tenant=1", "authority")]
    [InlineData("CLAIM a b", "claim")]
    public async Task Settings_ThatCannotBe_AreRefusedWithoutTheSecret(string text, string why)
    {
        var place = Directory.CreateTempSubdirectory("servicerules-provider-").FullName;
        var settings =
            text.StartsWith("AUTHORITY ", StringComparison.Ordinal)
                ? ProviderShop.Settings(new Uri(text[10..]))
            : text.StartsWith("CLAIM ", StringComparison.Ordinal)
                ? ProviderShop.Settings(new Uri("https://id.example"), text[6..])
            : text;
        ProviderShop.Write(place, settings);

        var refused = await Assert.ThrowsAsync<StartRefusedException>(() => ServiceRun.StartAsync(place));

        Assert.Contains(why, refused.Message, StringComparison.Ordinal);
        Assert.DoesNotContain(TestProvider.ClientSecret, refused.Message, StringComparison.Ordinal);
        Directory.Delete(place, recursive: true);
    }

    [Fact]
    public async Task Settings_WithSeveralFaults_AreToldWithAllOfThem()
    {
        var place = Directory.CreateTempSubdirectory("servicerules-provider-").FullName;
        ProviderShop.Write(
            place,
            """
            { "format": "other/1", "name": "", "authority": "http://id.example", "clientId": "", "clientSecret": "",
              "claim": "", "scopes": [""] }
            """
        );

        var refused = await Assert.ThrowsAsync<StartRefusedException>(() => ServiceRun.StartAsync(place));

        // Seven faults, and what is accepted.
        Assert.Equal(8, refused.Lines.Count);
        Directory.Delete(place, recursive: true);
    }
}
