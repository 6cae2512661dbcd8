using Microsoft.Data.Sqlite;
using ServiceRules.Storage.Tests.Packs;

namespace ServiceRules.Storage.Tests.Sqlite;

public sealed class SqlitePackTests() : PackContract(() => new Drawer())
{
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
