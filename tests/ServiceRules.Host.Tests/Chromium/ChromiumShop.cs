using Microsoft.Extensions.DependencyInjection;
using Microsoft.Playwright;
using ServiceRules.Application.Accounts;
using ServiceRules.Host.Accounts;
using ServiceRules.TestKit;

namespace ServiceRules.Host.Tests.Chromium;

/// <summary>Chromium before a service in which jobs are filed. Skipped where there is none, except on the build server.</summary>
public sealed class ChromiumShop : IAsyncLifetime
{
    private static readonly string[] Arguments =
    [
        "--no-sandbox",
        "--disable-gpu",
        "--disable-background-networking",
        "--disable-component-update",
        "--disable-sync",
        "--no-first-run",
    ];

    // A busy machine is not a broken page.
    private const float PatienceMilliseconds = 90_000;

    private readonly FiledShop shop = new();
    private IPlaywright? driver;
    private IBrowser? browser;

    public ServiceRun Run => shop.Run;

    public Task InitializeAsync() => shop.InitializeAsync();

    public async Task DisposeAsync()
    {
        if (browser is not null)
        {
            await browser.CloseAsync();
        }

        driver?.Dispose();
        await shop.DisposeAsync();
    }

    /// <summary>A new session of somebody of these roles, signed in through the page.</summary>
    public async Task<SeenPage> SignedInAsync(string name, Roles roles, ViewportSize? size = null)
    {
        string password;
        await using (var scope = Run.Service.Services.CreateAsyncScope())
        {
            password = await scope
                .ServiceProvider.GetRequiredService<AccountDesk>()
                .PutAsync(name, roles, null, AccountAct.Machine);
        }

        var seen = await NobodyAsync(size);
        await seen.OpenAsync("records");
        await seen.Page.GetByLabel("Name").FillAsync(name);
        await seen.Page.GetByLabel("Password").FillAsync(password);
        await seen.Page.GetByRole(AriaRole.Button, new() { Name = "Sign in" }).ClickAsync();
        await Assertions.Expect(seen.Page).ToHaveTitleAsync("Records - ServiceRules");
        return seen;
    }

    /// <summary>A new session of somebody who is not known.</summary>
    public async Task<SeenPage> NobodyAsync(ViewportSize? size = null)
    {
        Assertions.SetDefaultExpectTimeout(PatienceMilliseconds);
        browser ??= await StartAsync();
        var context = await browser.NewContextAsync(
            new() { BaseURL = Run.Service.Address.ToString(), ViewportSize = size }
        );
        context.SetDefaultTimeout(PatienceMilliseconds);
        return new SeenPage(context, await context.NewPageAsync(), Run.Service.Address);
    }

    private async Task<IBrowser> StartAsync()
    {
        var path = Tool.Require("chromium").Path;
        driver = await Playwright.CreateAsync();
        return await driver.Chromium.LaunchAsync(new() { ExecutablePath = path, Args = Arguments });
    }
}
