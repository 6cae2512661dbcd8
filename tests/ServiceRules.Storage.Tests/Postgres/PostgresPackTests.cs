using Npgsql;
using ServiceRules.Storage.Tests.Packs;

namespace ServiceRules.Storage.Tests.Postgres;

[Collection(PostgresTests.Name)]
public sealed class PostgresPackTests : PackContract
{
    private readonly Lazy<string> _address;

    public PostgresPackTests(PostgresFixture fixture)
        : this(new Lazy<string>(() => fixture.Server.NewDatabase())) { }

    private PostgresPackTests(Lazy<string> address)
        : base(() => new Drawer(address.Value)) => _address = address;

    private protected override void Run(string sql)
    {
        using var source = NpgsqlDataSource.Create(_address.Value);
        using var command = source.CreateCommand(sql);
        command.ExecuteNonQuery();
    }
}
