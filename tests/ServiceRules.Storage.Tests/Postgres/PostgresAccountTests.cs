using Npgsql;
using ServiceRules.Storage.Tests.Accounts;

namespace ServiceRules.Storage.Tests.Postgres;

[Collection(PostgresTestsBeside.Name)]
public sealed class PostgresAccountTests : AccountContract
{
    private readonly Lazy<string> _address;

    public PostgresAccountTests(PostgresFixture fixture)
        : this(new Lazy<string>(() => fixture.Server.NewDatabase())) { }

    private PostgresAccountTests(Lazy<string> address)
        : base(() => new Drawer(address.Value)) => _address = address;

    private protected override string DropGuard => "DROP TRIGGER account_act_stays ON account_act";

    private protected override string DropChangeGuard => "DROP TRIGGER account_act_keeps ON account_act";

    private protected override void Run(string sql)
    {
        using var source = NpgsqlDataSource.Create(_address.Value);
        using var command = source.CreateCommand(sql);
        command.ExecuteNonQuery();
    }
}
