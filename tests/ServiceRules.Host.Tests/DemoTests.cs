using ServiceRules.Application.Accounts;
using ServiceRules.Application.Demo;
using ServiceRules.Host.Tests.Accounts;

namespace ServiceRules.Host.Tests;

public sealed class DemoTests
{
    [Fact]
    public async Task Demo_AtStart_IsFiledWhileTheServiceAnswers()
    {
        await using var run = await ServiceRun.StartAsync(change: settings =>
            settings with
            {
                IsDemo = true,
                DemoJobs = 5,
            }
        );

        Assert.Contains(
            "demo",
            (await run.GetJsonAsync("health/ready")).GetRawText(),
            StringComparison.Ordinal
        );
        for (var looks = 0; looks < 300; looks++)
        {
            var demo = (await run.GetJsonAsync("health/ready")).GetProperty("parts").GetProperty("demo");
            if (demo.GetProperty("status").GetString() == "ready")
            {
                Assert.Equal("5 of 5 jobs filed", demo.GetProperty("told").GetString());
                var record = await run.GetJsonAsync("api/records/J-2025-0001");
                Assert.Equal("J-2025-0001", record.GetProperty("id").GetString());
                return;
            }

            await Task.Delay(200);
        }

        Assert.Fail("the demo was not filed");
    }

    [Fact]
    public async Task Demo_OnceFiled_TellsWhatTheRulesMadeOfIt()
    {
        await using var run = await ServiceRun.StartAsync(change: settings =>
            settings with
            {
                IsDemo = true,
                DemoJobs = 40,
            }
        );

        var summary = await run.Service.DemoFiled!.WaitAsync(TimeSpan.FromMinutes(2));

        Assert.Equal(40, summary.Jobs);
        Assert.Equal(40, summary.Released + summary.Held + summary.Stopped);
        Assert.NotEmpty(summary.Faults);
        Assert.True(summary.IsExact);
        var first = summary.Faults[0].Judged.Job.Record.Id.Text;
        Assert.Equal(first, (await run.GetJsonAsync($"api/records/{first}")).GetProperty("id").GetString());
    }

    [Fact]
    public async Task Demo_StoppedBeforeItsEnd_TellsThatThereIsNone()
    {
        Task<DemoSummary> filed;
        await using (
            var run = await ServiceRun.StartAsync(change: settings => settings with { IsDemo = true })
        )
        {
            filed = run.Service.DemoFiled!;
        }

        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => filed);
    }

    [Fact]
    public async Task Demo_AtEachStart_TellsAnAccountForEachRoleAndAKeyThatAreGoodUntilTheNext()
    {
        var folder = Directory.CreateTempSubdirectory("servicerules-host-").FullName;
        static ServiceSettings Demo(ServiceSettings settings) =>
            settings with
            {
                IsDemo = true,
                DemoJobs = 1,
            };
        WaysIn first;
        WaysIn second;
        await using (var run = await ServiceRun.StartAsync(folder, Demo))
        {
            first = run.Service.WaysIn;
            Assert.Null(first.FirstSecret);
            Assert.Equal(
                ["demo-technician", "demo-lead", "demo-officer", "demo-administrator"],
                first.DemoPasswords.Select(one => one.Key)
            );
            foreach (var (name, password) in first.DemoPasswords)
            {
                Assert.Equal(
                    (303, name == "demo-administrator" ? 403 : 200),
                    await SignInAsync(run, name, password)
                );
            }

            Assert.Equal(200, await WithKeyAsync(run, first.DemoKey));
        }

        await using (var again = await ServiceRun.StartAsync(folder, Demo))
        {
            second = again.Service.WaysIn;
            Assert.Equal(401, await WithKeyAsync(again, first.DemoKey));
            Assert.Equal(200, await WithKeyAsync(again, again.Service.WaysIn.DemoKey));
            var (name, password) = first.DemoPasswords[1];
            Assert.Equal((422, 302), await SignInAsync(again, name, password));
        }

        await using (var real = await ServiceRun.StartAsync(folder))
        {
            Assert.NotNull(real.Service.WaysIn.FirstSecret);
            Assert.Empty(real.Get<IAccountStore>().Accounts());
            Assert.Equal(401, await WithKeyAsync(real, second.DemoKey));
        }

        Directory.Delete(folder, recursive: true);
    }

    private static async Task<(int SignIn, int Records)> SignInAsync(
        ServiceRun run,
        string name,
        string password
    )
    {
        using var browser = new Browser(run);
        return (await browser.SignInAsync(name, password), await browser.StatusAsync("records"));
    }

    private static async Task<int> WithKeyAsync(ServiceRun run, string? key)
    {
        using var client = run.ClientWith(key);
        using var answer = await client.GetAsync(new Uri("api/records", UriKind.Relative));
        return (int)answer.StatusCode;
    }
}
