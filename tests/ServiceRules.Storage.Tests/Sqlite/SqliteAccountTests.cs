using Microsoft.Data.Sqlite;
using ServiceRules.Storage.Tests.Accounts;

namespace ServiceRules.Storage.Tests.Sqlite;

public sealed class SqliteAccountTests() : AccountContract(() => new Drawer())
{
    private protected override string DropGuard => "DROP TRIGGER account_act_stays";

    private protected override string DropChangeGuard => "DROP TRIGGER account_act_keeps";

    private protected override void Run(string sql)
    {
        using var connection = new SqliteConnection($"Data Source={Drawer.Database};Pooling=False");
        connection.Open();
        using var command = connection.CreateCommand();
#pragma warning disable CA2100 // The statements are those of the tests.
        command.CommandText = sql;
#pragma warning restore CA2100
        command.ExecuteNonQuery();
    }
}
