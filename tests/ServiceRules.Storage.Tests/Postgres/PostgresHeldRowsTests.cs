using ServiceRules.Storage.Tests.Submitting;

namespace ServiceRules.Storage.Tests.Postgres;

[Collection(PostgresTestsBeside.Name)]
public sealed class PostgresHeldRowsTests(PostgresFixture fixture)
    : HeldRowsContract(() => new Drawer(fixture.Server.NewDatabase()));
