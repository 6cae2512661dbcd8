using System.Net;
using Microsoft.AspNetCore.DataProtection.KeyManagement;
using Microsoft.Extensions.DependencyInjection;
using ServiceRules.Application.Accounts;
using ServiceRules.Application.Filed;
using ServiceRules.Host.Accounts;
using ServiceRules.Host.Tests.Accounts;
using ServiceRules.TestKit;

namespace ServiceRules.Host.Tests.Sessions;

/// <summary>Two instances on one PostgreSQL: whoever signed in at one is known at the other, and out at both.</summary>
public sealed class InstancesTests : IDisposable
{
    private readonly string _root = Directory.CreateTempSubdirectory("servicerules-instances-").FullName;

    public void Dispose() => Directory.Delete(_root, recursive: true);

    private string Place(string name) => Path.Combine(_root, name);

    [SkippableFact]
    public async Task Session_BegunAtOne_HoldsAtTheOtherAndEndsAtBoth()
    {
        using var server = PostgresServer.Require();
        await BeginAsync(server.NewDatabase());
        await using var first = await ServiceRun.StartAsync(Place("first"));
        await using var second = await ServiceRun.StartAsync(Place("second"));
        var password = await AccountAsync(first, "admin.both");
        using var atFirst = new Browser(first);
        using var atSecond = new Browser(second, atFirst.Cookies);

        Assert.Equal(303, await atFirst.SignInAsync("admin.both", password));
        Assert.Equal(200, await atSecond.StatusAsync("people"));

        // The form of a page that the first gave, sent to the second.
        var token = await atFirst.TokenAsync("people");
        using var sent = await atSecond.SendBareAsync(
            "people",
            ("__RequestVerificationToken", token),
            ("name", "added"),
            ("role", "officer")
        );
        Assert.Equal(HttpStatusCode.OK, sent.StatusCode);
        Assert.Contains(
            first.Get<IAccountStore>().Accounts(),
            account => account is { Name: "added", Roles: Roles.Officer }
        );

        using var copied = new Browser(first);
        copied.Cookies.Add(atFirst.Cookies.GetAllCookies());
        using var left = await atSecond.SendAsync("account", "account/sign-out");
        Assert.Equal(303, (int)left.StatusCode);
        Assert.Equal(302, await copied.StatusAsync("records"));
    }

    [SkippableFact]
    public async Task LockAfterGuessing_AtOne_HoldsAtTheOther()
    {
        using var server = PostgresServer.Require();
        await BeginAsync(server.NewDatabase());
        await using var first = await ServiceRun.StartAsync(Place("first"));
        await using var second = await ServiceRun.StartAsync(Place("second"));
        var password = await AccountAsync(first, "guessed");
        using var atFirst = new Browser(first);
        using var atSecond = new Browser(second);

        for (var tries = 0; tries < 3; tries++)
        {
            Assert.Equal(422, await atFirst.SignInAsync("guessed", "not the password"));
        }

        Assert.Equal(422, await atSecond.SignInAsync("guessed", "not the password"));
        Assert.Equal(422, await atSecond.SignInAsync("guessed", "not the password"));
        Assert.Equal(422, await atFirst.SignInAsync("guessed", password));
    }

    [Fact]
    public async Task Session_OnSqlite_HoldsAfterARestartAndItsKeyIsNotReadableInTheFile()
    {
        var cookies = new CookieContainer();
        string password;
        await using (var run = await ServiceRun.StartAsync(Place("alone")))
        {
            password = await AccountAsync(run, "stays");
            using var browser = new Browser(run, cookies);
            Assert.Equal(303, await browser.SignInAsync("stays", password));
            Assert.NotEmpty(run.Get<IKeyManager>().GetAllKeys());
        }

        Directory.CreateDirectory(Place("alone/data/protection"));
        await File.WriteAllTextAsync(Place("alone/data/protection/key-x.xml"), "<key />");
        await using var again = await ServiceRun.StartAsync(Place("alone"));
        using var after = new Browser(again, cookies);

        Assert.Equal(200, await after.StatusAsync("people"));
        // What was kept readable by earlier versions is gone.
        Assert.False(Directory.Exists(Place("alone/data/protection")));
        Assert.DoesNotContain(
            "masterKey",
            await File.ReadAllTextAsync(Place("alone/data/ledger/ledger.db")),
            StringComparison.Ordinal
        );
    }

    // The key of the log is made by the first start, and carried to the other.
    private async Task BeginAsync(string address)
    {
        var ledger = Place("first/data/ledger");
        Assert.Null(PrivateFolder.Make(Place("first/data")));
        Assert.Null(PrivateFolder.Make(ledger));
        Assert.True(
            DurableFile.WriteNew(
                Path.Combine(ledger, "postgres.address"),
                System.Text.Encoding.UTF8.GetBytes(address),
                DurableFile.Private
            )
        );
        await using (await ServiceRun.StartAsync(Place("first"))) { }

        Copy(Place("first"), Place("second"));
    }

    private static void Copy(string from, string to)
    {
        Assert.Null(PrivateFolder.Make(to));
        foreach (var folder in Directory.EnumerateDirectories(from))
        {
            Copy(folder, Path.Combine(to, Path.GetFileName(folder)));
        }

        foreach (var file in Directory.EnumerateFiles(from))
        {
            File.Copy(file, Path.Combine(to, Path.GetFileName(file)));
        }
    }

    private static async Task<string> AccountAsync(ServiceRun run, string name)
    {
        await using var scope = run.Service.Services.CreateAsyncScope();
        return await scope
            .ServiceProvider.GetRequiredService<AccountDesk>()
            .PutAsync(name, Roles.Administrator | Roles.Lead, null, AccountAct.Machine);
    }
}
