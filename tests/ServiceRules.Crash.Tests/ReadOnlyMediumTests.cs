namespace ServiceRules.Crash.Tests;

/// <summary>A ledger on a medium that takes nothing is read all the same, and changed by nothing.</summary>
public sealed class ReadOnlyMediumTests
{
    private static async Task<DataFolder> FiledAsync(SmallDisk disk, bool isKilled)
    {
        var folder = new DataFolder(disk.Place);
        using var service = await ServedProgram.StartAsync(folder.Data);
        using var client = await service.ClientAsync(folder.NewKey());
        for (var number = 1; number <= 3; number++)
        {
            using var content = new ByteArrayContent(Job.Of(number));
            content.Headers.ContentType = new("application/json");
            using var answer = await client.PostAsync(new Uri("api/records", UriKind.Relative), content);
            Assert.True(answer.IsSuccessStatusCode);
        }

        if (isKilled)
        {
            // What was filed last stands beside the database then.
            await service.KillAsync();
        }
        else
        {
            await service.StopAsync();
        }

        return folder;
    }

    [SkippableTheory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task Ledger_OnAMediumThatTakesNothing_IsVerifiedShownProvedAndCopied(bool isKilled)
    {
        using var disk = SmallDisk.Mounted("64m");
        using var folder = await FiledAsync(disk, isKilled);
        using var copied = folder.Copied();
        var entries = copied.Entries();
        disk.TakeNothing();

        Assert.Equal(entries, folder.Entries());
        var shown = folder.Ask("show", Job.IdOf(3));
        Assert.True(shown.ExitCode == 0, shown.ToString());
        Assert.Contains(
            "cannot be written to: it is read from a copy",
            shown.StandardError,
            StringComparison.Ordinal
        );
        foreach (var command in new string[][] { ["key"], ["checkpoint"], ["prove", "0"], ["rows"] })
        {
            var told = folder.Ask(command);
            Assert.True(told.ExitCode == 0, $"{string.Join(' ', command)}: {told}");
        }

        using var copies = new DataFolder();
        folder.Backup(copies.Data);
        Assert.True(File.Exists(Path.Combine(copies.Data, "ledger.db")));
    }

    [SkippableFact]
    public async Task Ledger_OnAMediumThatTakesNothing_IsNotFiledInto()
    {
        using var disk = SmallDisk.Mounted("64m");
        using var folder = await FiledAsync(disk, isKilled: false);
        disk.TakeNothing();

        var forgotten = folder.Ask("forget", "tech-02", "--by", "officer-01", "--reason", "asked");

        Assert.NotEqual(0, forgotten.ExitCode);
        Assert.Contains("ead-only", forgotten.StandardError, StringComparison.Ordinal);
    }
}
