using System.Globalization;
using System.Text;
using System.Text.Json.Nodes;
using Microsoft.IdentityModel.Tokens;
using ServiceRules.Host.Tests.Accounts;

namespace ServiceRules.Host.Tests.Providers;

/// <summary>What comes back and does not hold signs nobody in, and is answered by a page.</summary>
public sealed class HostileProviderTests
{
    private static async Task RefusedAsync(ProviderShop shop, Browser browser, HttpResponseMessage answer)
    {
        var text = await answer.Content.ReadAsStringAsync();
        Assert.Equal(422, (int)answer.StatusCode);
        Assert.Contains("<h1>Sign in</h1>", text, StringComparison.Ordinal);
        Assert.DoesNotContain("Exception", text, StringComparison.Ordinal);
        Assert.DoesNotContain("IDX", text, StringComparison.Ordinal);
        Assert.DoesNotContain(
            browser.Cookies.GetCookies(shop.Run.Service.Address),
            cookie => cookie.Name == "servicerules"
        );
        Assert.Equal(302, await browser.StatusAsync("records"));
    }

    private static async Task<ProviderShop> OpenAsync()
    {
        var shop = await ProviderShop.OpenAsync();
        _ = await shop.AddAsync("lead", "subject-1");
        return shop;
    }

    [Theory]
    [InlineData("none")]
    [InlineData("audience")]
    [InlineData("issuer")]
    [InlineData("nonce")]
    [InlineData("no nonce")]
    [InlineData("expired")]
    [InlineData("never ends")]
    [InlineData("not yet")]
    [InlineData("another key")]
    [InlineData("alg none")]
    [InlineData("signature taken away")]
    [InlineData("signed with the secret")]
    [InlineData("changed after it was signed")]
    [InlineData("no subject")]
    [InlineData("no token")]
    [InlineData("two subjects")]
    public async Task Token_ThatDoesNotHold_SignsNobodyIn(string what)
    {
        await using var shop = await OpenAsync();
        using var browser = new Browser(shop.Run);
        Spoil(shop.Provider, what);

        using var answer = await shop.SignInAsync(browser);

        if (what == "none")
        {
            // Else the others would be refused for something else.
            Assert.Equal(200, (int)answer.StatusCode);
            Assert.Equal(200, await browser.StatusAsync("records"));
            return;
        }

        await RefusedAsync(shop, browser, answer);
        // And what holds is taken afterwards.
        shop.Provider.Forge = null;
        shop.Provider.Rewrite = null;
        shop.Provider.SignsWithAnotherKey = false;
        shop.Provider.FailsAtTokens = false;
        shop.Provider.Claims["sub"] = "subject-1";
        using var good = await shop.SignInAsync(browser);
        Assert.Equal(200, (int)good.StatusCode);
    }

    private static void Spoil(TestProvider provider, string what)
    {
        var now = TimeProvider.System.GetUtcNow().UtcDateTime;
        switch (what)
        {
            case "audience":
                provider.Forge = token => token.Audience = "another service";
                break;
            case "issuer":
                provider.Forge = token => token.Issuer = "https://id.example";
                break;
            case "nonce":
                provider.Forge = token => token.Claims["nonce"] = "of another way";
                break;
            case "no nonce":
                provider.Forge = token => token.Claims.Remove("nonce");
                break;
            case "expired":
                provider.Forge = token =>
                    (token.IssuedAt, token.NotBefore, token.Expires) = (
                        now.AddHours(-1),
                        now.AddHours(-1),
                        now.AddMinutes(-5)
                    );
                break;
            case "never ends":
                provider.Forge = token => token.Expires = null;
                break;
            case "not yet":
                provider.Forge = token => token.NotBefore = now.AddMinutes(4);
                break;
            case "another key":
                provider.SignsWithAnotherKey = true;
                break;
            case "alg none":
                provider.Rewrite = token => Rewritten(token, header => header["alg"] = "none", null) + ".";
                break;
            case "signature taken away":
                provider.Rewrite = token => token[..(token.LastIndexOf('.') + 1)];
                break;
            case "signed with the secret":
                provider.Forge = token =>
                    token.SigningCredentials = new SigningCredentials(
                        new SymmetricSecurityKey(
                            Encoding.UTF8.GetBytes(TestProvider.ClientSecret.PadRight(32, '\0'))
                        ),
                        SecurityAlgorithms.HmacSha256
                    );
                break;
            case "changed after it was signed":
                provider.Claims["sub"] = "subject-0";
                provider.Rewrite = token =>
                    Rewritten(token, null, payload => payload["sub"] = "subject-1")
                    + "."
                    + token.Split('.')[2];
                break;
            case "no subject":
                provider.Forge = token => token.Claims.Remove("sub");
                break;
            case "no token":
                provider.FailsAtTokens = true;
                break;
            case "two subjects":
                provider.Claims["sub"] = new[] { "subject-1", "subject-2" };
                break;
            default:
                Assert.Equal("none", what);
                break;
        }
    }

    private static string Rewritten(string token, Action<JsonNode>? header, Action<JsonNode>? payload)
    {
        var parts = token.Split('.');
        return Part(parts[0], header) + "." + Part(parts[1], payload);

        static string Part(string part, Action<JsonNode>? change)
        {
            var read = JsonNode.Parse(Base64UrlEncoder.Decode(part))!;
            change?.Invoke(read);
            return Base64UrlEncoder.Encode(read.ToJsonString());
        }
    }

    [Fact]
    public async Task WayBack_TakenTwice_SignsNobodyInTheSecondTime()
    {
        await using var shop = await OpenAsync();
        using var browser = new Browser(shop.Run);
        var back = await shop.LedBackAsync(browser);
        using (var first = await browser.GetAsync(back))
        {
            Assert.Equal(200, (int)first.StatusCode);
        }

        using (await browser.SendAsync("account", "account/sign-out")) { }

        using var again = await browser.GetAsync(back);
        await RefusedAsync(shop, browser, again);
    }

    [Fact]
    public async Task WayBack_OfAnotherBrowser_SignsNobodyIn()
    {
        await using var shop = await OpenAsync();
        using var theirs = new Browser(shop.Run);
        using var browser = new Browser(shop.Run);
        var back = await shop.LedBackAsync(theirs);

        using var answer = await browser.GetAsync(back);

        await RefusedAsync(shop, browser, answer);
    }

    [Fact]
    public async Task Code_OfAnotherBrowserOnAWayOfOnesOwn_SignsNobodyIn()
    {
        await using var shop = await OpenAsync();
        using var theirs = new Browser(shop.Run);
        using var browser = new Browser(shop.Run);
        var stolen = CodeOf(await shop.LedBackAsync(theirs));
        var own = await shop.LedBackAsync(browser);

        using var answer = await browser.GetAsync(own.Replace(CodeOf(own), stolen, StringComparison.Ordinal));

        await RefusedAsync(shop, browser, answer);
    }

    private static string CodeOf(string back) =>
        back.Split('?', '&').Single(part => part.StartsWith("code=", StringComparison.Ordinal));

    [Theory]
    [InlineData("sign-in/elsewhere/back")]
    [InlineData("sign-in/elsewhere/back?code=x&state=y")]
    [InlineData("sign-in/elsewhere/back?error=access_denied&error_description=%3Cscript%3E")]
    [InlineData("sign-in/elsewhere/back?id_token=x&state=y")]
    [InlineData("sign-in/elsewhere/back?code=x&code=z&state=")]
    public async Task WayBack_ThatNobodyWasLed_IsAnsweredByThePage(string back)
    {
        await using var shop = await OpenAsync();
        using var browser = new Browser(shop.Run);

        using var answer = await browser.GetAsync(back);

        await RefusedAsync(shop, browser, answer);
        Assert.DoesNotContain("<script>", await answer.Content.ReadAsStringAsync(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Provider_ThatLetsNobodyThrough_IsTold()
    {
        await using var shop = await OpenAsync();
        using var browser = new Browser(shop.Run);
        shop.Provider.Denies = true;

        using var answer = await shop.SignInAsync(browser);

        Assert.Contains(
            "did not let you through",
            await answer.Content.ReadAsStringAsync(),
            StringComparison.Ordinal
        );
        await RefusedAsync(shop, browser, answer);
    }

    [Theory]
    [InlineData("https://shop.example/")]
    [InlineData("//shop.example/")]
    [InlineData("/\\shop.example/")]
    [InlineData("/records\u00e9")]
    [InlineData("/a\r\nSet-Cookie: x=y")]
    [InlineData("")]
    public async Task SignIn_AskedToLeadElsewhere_LeadsToTheStart(string then)
    {
        await using var shop = await OpenAsync();
        using var browser = new Browser(shop.Run);

        using var answer = await shop.SignInAsync(
            browser,
            string.Create(
                CultureInfo.InvariantCulture,
                $"sign-in/elsewhere?then={Uri.EscapeDataString(then)}"
            )
        );

        Assert.Equal(200, (int)answer.StatusCode);
        Assert.Equal("0; url=/", answer.Headers.GetValues("Refresh").Single());
    }
}
