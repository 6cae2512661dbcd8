using ServiceRules.Storage.Tests.Sites;

namespace ServiceRules.Storage.Tests.Postgres;

[Collection(PostgresTests.Name)]
public sealed class PostgresOutdatedTests(PostgresFixture fixture)
    : OutdatedContract(() => new Drawer(fixture.Server.NewDatabase()));
