using ServiceRules.Application.Accounts;
using ServiceRules.TestKit;

namespace ServiceRules.Host.Tests.Accounts;

/// <summary>The command line on the data folder of a service that runs.</summary>
public sealed class AccountsCommandTests(SharedService shared) : IClassFixture<SharedService>
{
    private readonly ServiceRun _run = shared.Run;

    private string Data => Path.Combine(_run.Folder, "data");

    [Fact]
    public async Task Key_MadeWhileTheServiceRuns_IsAloneOnStandardOutputAndOpens()
    {
        using var product = new Product();

        var outcome = product.Run([
            "accounts",
            "key",
            "--data",
            Data,
            "--name",
            "export",
            "--role",
            "officer",
            "--days",
            "7",
        ]);

        Assert.True(outcome.ExitCode == 0, outcome.ToString());
        var secret = outcome.StandardOutput.Trim();
        var key = _run.Get<IAccountStore>().Key(DrawnSecret.Hash(secret))!;
        Assert.Equal(("export", Roles.Officer), (key.Name, key.Roles));
        Assert.Equal(TimeSpan.FromDays(7), key.ExpiresAt - key.MadeAt);
        Assert.DoesNotContain(secret, outcome.StandardError, StringComparison.Ordinal);
        using var client = _run.ClientWith(secret);
        using var answer = await client.GetAsync(new Uri("api/findings", UriKind.Relative));
        Assert.Equal(200, (int)answer.StatusCode);
        Assert.Equal(AccountAct.Machine, _run.Get<IAccountStore>().Acts(null, 1)[0].By);
    }

    [Theory]
    [InlineData("no role", "--name", "x")]
    [InlineData("no role", "--name", "x", "--role", "owner")]
    [InlineData("--name", "--role", "lead")]
    [InlineData("register", "--name", "x", "--role", "technician")]
    [InlineData("register", "--name", "x", "--role", "technician", "--person", "nobody-99")]
    [InlineData("--days", "--name", "x", "--role", "lead", "--days", "0")]
    public void Key_ThatCannotBe_IsRefusedWithWhatWouldBeAccepted(string told, params string[] given)
    {
        using var product = new Product();
        var before = _run.Get<IAccountStore>().Keys().Length;

        var outcome = product.Run(["accounts", "key", "--data", Data, .. given]);

        Assert.Equal(2, outcome.ExitCode);
        Assert.Contains(told, outcome.StandardError, StringComparison.Ordinal);
        Assert.Contains("accepted", outcome.StandardError, StringComparison.Ordinal);
        Assert.Equal(before, _run.Get<IAccountStore>().Keys().Length);
    }

    [Fact]
    public void Key_WhereNoServiceIs_IsRefusedAndNothingIsMade()
    {
        using var product = new Product();

        var outcome = product.Run([
            "accounts",
            "key",
            "--data",
            product.At("none"),
            "--name",
            "x",
            "--role",
            "lead",
        ]);

        Assert.Equal(2, outcome.ExitCode);
        Assert.False(Directory.Exists(product.At("none")));
    }

    [Fact]
    public async Task FirstSecret_DrawnAnew_MakesAnAdministrator()
    {
        using var product = new Product();

        var outcome = product.Run(["accounts", "reset-first-secret", "--data", Data]);

        Assert.True(outcome.ExitCode == 0, outcome.ToString());
        using var browser = new Browser(_run);
        using var answer = await browser.SendAsync(
            "first-administrator",
            "first-administrator",
            ("secret", outcome.StandardOutput.Trim()),
            ("name", "again"),
            ("password", "a long enough one")
        );
        Assert.Equal(303, (int)answer.StatusCode);
    }
}
