using ServiceRules.Storage.Tests.Working;

namespace ServiceRules.Storage.Tests.Postgres;

[Collection(PostgresTests.Name)]
public sealed class PostgresWorkTests(PostgresFixture fixture)
    : WorkContract(() => new Drawer(fixture.Server.NewDatabase()));
