using ServiceRules.Storage.Tests.Submitting;

namespace ServiceRules.Storage.Tests.Postgres;

[Collection(PostgresTestsBeside.Name)]
public sealed class PostgresLostContentTests(PostgresFixture fixture)
    : LostContentContract(() => new Drawer(fixture.Server.NewDatabase()));
