using ServiceRules.Storage.Tests.Keeping;

namespace ServiceRules.Storage.Tests.Postgres;

[Collection(PostgresTestsBeside.Name)]
public sealed class PostgresKeepingTests(PostgresFixture fixture)
    : KeepingContract(() => new Drawer(fixture.Server.NewDatabase()));
