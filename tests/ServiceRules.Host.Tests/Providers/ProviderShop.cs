using System.Text;
using System.Text.Json;
using Microsoft.Extensions.DependencyInjection;
using ServiceRules.Application.Accounts;
using ServiceRules.Application.Filed;
using ServiceRules.Host.Accounts;
using ServiceRules.Host.Tests.Accounts;

namespace ServiceRules.Host.Tests.Providers;

/// <summary>A service with a provider beside it, and somebody before both.</summary>
internal sealed class ProviderShop : IAsyncDisposable
{
    public const string Way = "sign-in/elsewhere?then=%2Frecords%3Flimit%3D5";

    private readonly string _place;

    private ProviderShop(string place, TestProvider provider, ServiceRun run)
    {
        _place = place;
        Provider = provider;
        Run = run;
    }

    public TestProvider Provider { get; }

    public ServiceRun Run { get; private set; }

    public IAccountStore Accounts => Run.Get<IAccountStore>();

#pragma warning disable CA2000 // The shop disposes of both.
    public static async Task<ProviderShop> OpenAsync(string claim = "sub")
    {
        var place = Directory.CreateTempSubdirectory("servicerules-provider-").FullName;
        var provider = await TestProvider.StartAsync();
        Write(place, Settings(provider.Authority, claim));
        return new ProviderShop(place, provider, await ServiceRun.StartAsync(place));
    }
#pragma warning restore CA2000

    public static string Settings(Uri authority, string claim = "sub") =>
        JsonSerializer.Serialize(
            new
            {
                format = "service-sign-in/1",
                name = "County sign-in",
                authority,
                clientId = TestProvider.ClientId,
                clientSecret = TestProvider.ClientSecret,
                claim,
            }
        );

    public static void Write(string place, string settings, UnixFileMode mode = DurableFile.Private)
    {
        var data = Path.Combine(place, "data");
        Assert.Null(PrivateFolder.Make(data));
        File.Delete(Path.Combine(data, "sign-in.json"));
        Assert.True(
            DurableFile.WriteNew(Path.Combine(data, "sign-in.json"), Encoding.UTF8.GetBytes(settings), mode)
        );
    }

    public async Task RestartAsync(string? settings)
    {
        await Run.DisposeAsync();
        if (settings is null)
        {
            File.Delete(Path.Combine(_place, "data", "sign-in.json"));
        }
        else
        {
            Write(_place, settings);
        }

        Run = await ServiceRun.StartAsync(_place);
    }

    public async Task<T> AtTheDeskAsync<T>(Func<AccountDesk, Task<T>> work)
    {
        await using var scope = Run.Service.Services.CreateAsyncScope();
        return await work(scope.ServiceProvider.GetRequiredService<AccountDesk>());
    }

    public async Task<Account> AddAsync(string name, string called, Roles roles = Roles.Lead)
    {
        var outcome = await AtTheDeskAsync(desk =>
            desk.AddElsewhereAsync(name, called, roles, null, AccountAct.Machine)
        );
        Assert.Empty(outcome.Problems);
        return Accounts.Accounts().Single(account => account.Name == name);
    }

    /// <summary>The way there and back, up to the address that the provider leads back to.</summary>
    public async Task<string> LedBackAsync(Browser browser, string way = Way)
    {
        using var led = await browser.GetAsync(way);
        Assert.True((int)led.StatusCode == 302, await led.Content.ReadAsStringAsync());
        using var handler = new SocketsHttpHandler { AllowAutoRedirect = false };
        using var client = new HttpClient(handler);
        using var back = await client.GetAsync(led.Headers.Location);
        Assert.Empty(Provider.Wrong);
        Assert.Equal(302, (int)back.StatusCode);
        Assert.Equal(Run.Service.Address.Authority, back.Headers.Location!.Authority);
        return back.Headers.Location!.PathAndQuery.TrimStart('/');
    }

    public async Task<HttpResponseMessage> SignInAsync(Browser browser, string way = Way) =>
        await browser.GetAsync(await LedBackAsync(browser, way));

    public async ValueTask DisposeAsync()
    {
        await Run.DisposeAsync();
        await Provider.DisposeAsync();
        Directory.Delete(_place, recursive: true);
    }
}
