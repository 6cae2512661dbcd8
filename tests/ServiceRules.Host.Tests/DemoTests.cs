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
}
