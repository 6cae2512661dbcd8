using ServiceRules.Storage.Tests.Submitting;

namespace ServiceRules.Storage.Tests.Postgres;

[Collection(PostgresTests.Name)]
public sealed class PostgresLostContentTests(PostgresFixture fixture)
    : LostContentContract(() => new Drawer(fixture.Server.NewDatabase()));
