using ServiceRules.Storage.Tests.Submitting;

namespace ServiceRules.Storage.Tests.Postgres;

[Collection(PostgresTests.Name)]
public sealed class PostgresLogTests(PostgresFixture fixture)
    : LogContract(() => new Drawer(fixture.Server.NewDatabase()));
