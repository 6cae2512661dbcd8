using Microsoft.Data.Sqlite;
using ServiceRules.TestKit;

namespace ServiceRules.Cli.Tests;

/// <summary>A content that is lost and that no copy has, given up by somebody who answers for that.</summary>
public sealed class LedgerGiveUpTests : IDisposable
{
    private const string Job = "F-height-check";

    private static readonly string[] Officer = ["--by", "officer-01", "--reason", "no copy has it"];

    private readonly Product _product = new();

    public void Dispose() => _product.Dispose();

    [Fact]
    public void GiveUp_OfWhatIsLost_IsToldAndIsNoFaultAnyMore()
    {
        Run(0, "ledger", "add", Fixtures.PathOf("height-check"));
        Refused("nothing is lost", ["ledger", "give-up", Job, .. Officer]);
        Run(0, ["hold", "add", "--record", Job, .. Officer]);
        LoseTheRecord();
        Run(1, "ledger", "verify");

        Refused("`H-1`", ["ledger", "give-up", Job, .. Officer]);
        Run(0, ["hold", "lift", "H-1", .. Officer]);
        Assert.Equal(2, Product("ledger", "give-up", Job).ExitCode);
        Run(0, ["ledger", "give-up", Job, .. Officer]);

        Run(0, "ledger", "verify");
        Run(0, "ledger", "rows");
        Assert.Contains(
            "given up as lost on ",
            Run(0, "ledger", "show", Job).StandardOutput,
            StringComparison.Ordinal
        );
    }

    private void LoseTheRecord()
    {
        using var connection = new SqliteConnection(
            $"Data Source={_product.At("ledger/ledger.db")};Pooling=False"
        );
        connection.Open();
        using var command = connection.CreateCommand();
        command.CommandText =
            "DELETE FROM content WHERE lower(hex(hash)) IN (SELECT substr(record_hash, 8) FROM record_row)";
        Assert.Equal(1, command.ExecuteNonQuery());
    }

    private void Refused(string told, string[] arguments) =>
        Assert.Contains(told, Run(1, arguments).StandardError, StringComparison.Ordinal);

    private ProductOutcome Product(params string[] arguments) =>
        _product.Run([.. arguments, "--ledger", _product.At("ledger")]);

    private ProductOutcome Run(int exitCode, params string[] arguments)
    {
        var outcome = Product(arguments);
        Assert.True(outcome.ExitCode == exitCode, outcome.ToString());
        return outcome;
    }
}
