using ServiceRules.Storage.Tests.Accounts;

namespace ServiceRules.Storage.Tests.Postgres;

[Collection(PostgresTestsBeside.Name)]
public sealed class PostgresBesideTests(PostgresFixture fixture)
    : BesideContract(() => new Drawer(fixture.Server.NewDatabase()));
