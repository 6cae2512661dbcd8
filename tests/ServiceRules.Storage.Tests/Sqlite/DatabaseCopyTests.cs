using System.Diagnostics;
using ServiceRules.Storage.Sqlite;

namespace ServiceRules.Storage.Tests.Sqlite;

public sealed class DatabaseCopyTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("servicerules-copy-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    /// <summary>Reading of what is filed last waits in a pipe until the test has changed the database under it.</summary>
    [SkippableFact]
    public async Task Of_DatabaseWhosePartGoesMeanwhile_HasNothingOfTheTryBefore()
    {
        Skip.If(OperatingSystem.IsWindows(), "there are no named pipes in folders");
        var database = Path.Combine(_folder, "ledger.db");
        var beside = database + "-wal";
        await File.WriteAllTextAsync(database, "old");
        using (var made = Process.Start("mkfifo", beside))
        {
            await made.WaitForExitAsync();
        }

        var copying = Task.Run(() => DatabaseCopy.Of(database));
        // Opening it waits for whoever reads.
        await using (var pipe = new FileStream(beside, FileMode.Open, FileAccess.Write, FileShare.ReadWrite))
        {
            await File.WriteAllTextAsync(database, "newer");
            File.Delete(beside);
            pipe.Write("of the old one"u8);
        }

        using var copy = await copying.WaitAsync(TimeSpan.FromSeconds(60));

        Assert.Equal("newer", await File.ReadAllTextAsync(copy.File));
        Assert.Equal([copy.File], Directory.GetFiles(Path.GetDirectoryName(copy.File)!));
    }
}
