using System.Runtime.Versioning;
using ServiceRules.TestKit;

namespace ServiceRules.Cli.Tests;

/// <summary>Copies of a ledger: made, put back, tried.</summary>
public sealed class LedgerBackupTests : IDisposable
{
    private readonly Product _product = new();

    public void Dispose() => _product.Dispose();

    private string Folder => _product.At("ledger");

    private string Backup => _product.At("backup");

    private ProductOutcome Ledger(int exitCode, params string[] arguments)
    {
        var outcome = _product.Run(["ledger", .. arguments, "--ledger", Folder]);
        Manners.Hold(outcome);
        Assert.True(outcome.ExitCode == exitCode, outcome.ToString());
        return outcome;
    }

    private void Add(string fixture) => Ledger(0, "add", Fixtures.PathOf(fixture));

    [Fact]
    public void Backup_OfALedger_IsRestoredWholeAndGoesOn()
    {
        Add("height-check");

        Assert.Contains("3 entries", Ledger(0, "backup", Backup).StandardOutput, StringComparison.Ordinal);
        Directory.Delete(Folder, recursive: true);
        var restored = Ledger(0, "restore", Backup);

        Assert.Contains("SOUND, 3 entries", restored.StandardOutput, StringComparison.Ordinal);
        Assert.Contains("SOUND", Ledger(0, "verify").StandardOutput, StringComparison.Ordinal);
        Add("touch-up");
    }

    [Fact]
    public void Restore_OlderThanTheCheckpoints_TellsWhatIsMissingAndNothingIsFiledInIt()
    {
        Add("height-check");
        Ledger(0, "backup", Backup);
        Add("touch-up");
        Directory.Delete(Folder, recursive: true);

        var restored = Ledger(1, "restore", Backup);

        Assert.Contains(
            "the newest 2 of 5 entries are not in it",
            restored.StandardOutput,
            StringComparison.Ordinal
        );
        Refused("is not the one that its checkpoints speak of", "show", Id());
        var shown = Ledger(
            0,
            "show",
            Id(),
            "--checkpoints",
            _product.At("empty"),
            "--accept-missing-checkpoints"
        );
        Assert.Contains(Id(), shown.StandardOutput, StringComparison.Ordinal);
        Assert.NotEqual(
            0,
            _product.Run("ledger", "add", Fixtures.PathOf("lap"), "--ledger", Folder).ExitCode
        );
    }

    [Fact]
    public void Drill_OfAnOlderBackup_IsSoundAndSaysHowFarTheLogWentOn()
    {
        Add("height-check");
        Ledger(0, "backup", Backup);
        Add("touch-up");
        var before = Listing(Backup);

        var drilled = Ledger(0, "drill", Backup);

        Assert.Contains("SOUND, 3 entries", drilled.StandardOutput, StringComparison.Ordinal);
        Assert.Contains("the newest 2 of 5", drilled.StandardOutput, StringComparison.Ordinal);
        Assert.Equal(before, Listing(Backup));
        Assert.Equal(0, _product.Run("ledger", "drill", Backup).ExitCode);
    }

    [Fact]
    public void Drill_OfABackupWithAFlippedByte_IsNotSound()
    {
        Add("height-check");
        Ledger(0, "backup", Backup);
        var database = Path.Combine(Backup, "ledger.db");
        var bytes = File.ReadAllBytes(database);
        var at = bytes.AsSpan().IndexOf("\"service-record/1\""u8);
        bytes[at + 2] ^= 1;
        File.WriteAllBytes(database, bytes);

        Assert.Contains("NOT SOUND", Ledger(1, "drill", Backup).StandardOutput, StringComparison.Ordinal);
    }

    [Fact]
    public void Drill_OfABackupOfAnotherLog_IsNotItsBeginning()
    {
        Add("height-check");
        _product.Run("ledger", "add", Fixtures.PathOf("height-check"), "--ledger", _product.At("other"));
        _product.Run("ledger", "backup", Backup, "--ledger", _product.At("other"));

        Assert.Contains(
            "it is no beginning of the log",
            Ledger(1, "drill", Backup).StandardOutput,
            StringComparison.Ordinal
        );
    }

    [SkippableFact]
    [UnsupportedOSPlatform("windows")]
    public void Backup_Folder_IsAsPrivateAsTheLedger()
    {
        Skip.If(OperatingSystem.IsWindows(), "file modes are a Unix matter");
        Add("height-check");

        Ledger(0, "backup", Backup);

        Assert.Equal(
            UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute,
            File.GetUnixFileMode(Backup)
        );
        Assert.All(
            Directory.EnumerateFiles(Backup),
            file => Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite, File.GetUnixFileMode(file))
        );
    }

    [Fact]
    public void Backup_PlaceThatWillNotDo_IsRefused()
    {
        Add("height-check");
        Ledger(0, "backup", Backup);

        Refused("is not empty", "backup", Backup);
        Refused("lies in the ledger's own folder", "backup", Path.Combine(Folder, "backup"));
        Refused("holds no backup", "restore", _product.At("nothing"));
        Refused("holds no backup", "drill", _product.At("nothing"));
        Refused("is not empty", "restore", Backup);
    }

    private void Refused(string told, params string[] arguments)
    {
        var outcome = _product.Run(["ledger", .. arguments, "--ledger", Folder]);
        Manners.HoldForRefusal(outcome);
        Assert.Contains(told, outcome.StandardError, StringComparison.Ordinal);
    }

    private static string Id() =>
        System.Text.Json.Nodes.JsonNode.Parse(File.ReadAllText(Fixtures.PathOf("height-check")))![
            "id"
        ]!.GetValue<string>();

    private static List<(string, long)> Listing(string folder) =>
        [
            .. Directory
                .EnumerateFiles(folder)
                .Order(StringComparer.Ordinal)
                .Select(file => (file, new FileInfo(file).Length)),
        ];
}
