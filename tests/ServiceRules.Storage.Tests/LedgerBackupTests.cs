using ServiceRules.Application.Ledger;

namespace ServiceRules.Storage.Tests;

public sealed class LedgerBackupTests : IDisposable
{
    private readonly Drawer _drawer = new();

    public void Dispose() => _drawer.Dispose();

    [Theory]
    [InlineData(LedgerFolder.DatabaseName)]
    [InlineData(LedgerFolder.KeyName)]
    public void Restore_BackupThatCannotBeRead_SaysSoAndLeavesNothing(string file)
    {
        var backup = Backup();
        File.Delete(Path.Combine(backup, file));
        Directory.CreateDirectory(Path.Combine(backup, file));

        var refused = Assert.Throws<LedgerStoreException>(() =>
            LedgerBackup.Restore(backup, _drawer.At("again"))
        );

        Assert.Contains(
            $"`{Path.Combine(backup, file)}` cannot be read",
            refused.Message,
            StringComparison.Ordinal
        );
        Assert.False(Directory.Exists(_drawer.At("again")));
    }

    [Fact]
    public void Restore_WholeBackup_IsTheSameLog()
    {
        var backup = Backup();

        LedgerBackup.Restore(backup, _drawer.At("again"));

        Assert.Equal(
            File.ReadAllBytes(Path.Combine(backup, LedgerFolder.DatabaseName)),
            File.ReadAllBytes(_drawer.At("again/" + LedgerFolder.DatabaseName))
        );
    }

    private string Backup()
    {
        _drawer.File(1);
        using var folder = _drawer.Open();
        LedgerBackup.Make(folder, _drawer.At("backup"));
        return _drawer.At("backup");
    }
}
