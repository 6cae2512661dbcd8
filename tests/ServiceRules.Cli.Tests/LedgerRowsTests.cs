using System.Text;
using System.Text.RegularExpressions;
using ServiceRules.TestKit;

namespace ServiceRules.Cli.Tests;

/// <summary>What lists are made of, with one byte of it changed in the file.</summary>
public sealed partial class LedgerRowsTests : IDisposable
{
    private readonly Product _product = new();

    public void Dispose() => _product.Dispose();

    private string Folder => _product.At("ledger");

    private string Backup => _product.At("backup");

    [Fact]
    public void Rows_OfALedgerAsItWasFiled_AreWhatItComesTo()
    {
        Add("height-check");

        Assert.Contains("are what the log", Ledger(0, "rows").StandardOutput, StringComparison.Ordinal);
        Assert.Contains(
            "The rows of 3 entries were made anew.",
            Ledger(0, "rows", "--rebuild").StandardOutput,
            StringComparison.Ordinal
        );
        Assert.Equal(2, _product.Run("ledger", "rows", "--ledger", _product.At("none")).ExitCode);
    }

    [Fact]
    public void Rows_WithAByteChanged_AreNamedAndMadeAnew()
    {
        Add("height-check");
        FlipMachine(Path.Combine(Folder, "ledger.db"));

        foreach (var told in new[] { Ledger(1, "rows"), Ledger(1, "verify") })
        {
            Assert.Contains(
                "`record_row`, column `machine`: it says `L-02`, the log comes to `M-02`",
                told.StandardOutput,
                StringComparison.Ordinal
            );
        }

        Ledger(0, "rows", "--rebuild");
        Assert.Contains("SOUND", Ledger(0, "verify").StandardOutput, StringComparison.Ordinal);
    }

    [Fact]
    public void Drill_OfABackupWithAByteOfARowChanged_IsNotSound()
    {
        Add("height-check");
        Ledger(0, "backup", Backup);
        FlipMachine(Path.Combine(Backup, "ledger.db"));

        Assert.Contains("NOT SOUND", Ledger(1, "drill", Backup).StandardOutput, StringComparison.Ordinal);
    }

    // The row of the version: its record, the site and the machine one after the other, as SQLite keeps them.
    private static void FlipMachine(string database)
    {
        var bytes = File.ReadAllBytes(database);
        var row = RowOfTheVersion().Match(Encoding.Latin1.GetString(bytes));
        Assert.True(row.Success);
        bytes[row.Groups[1].Index] ^= 1;
        File.WriteAllBytes(database, bytes);
    }

    [GeneratedRegex("F-height-check[^\"]{0,80}?(M)-02")]
    private static partial Regex RowOfTheVersion();

    private void Add(string fixture) => Ledger(0, "add", Fixtures.PathOf(fixture));

    private ProductOutcome Ledger(int exitCode, params string[] arguments)
    {
        var outcome = _product.Run(["ledger", .. arguments, "--ledger", Folder]);
        Manners.Hold(outcome);
        Assert.True(outcome.ExitCode == exitCode, outcome.ToString());
        return outcome;
    }
}
