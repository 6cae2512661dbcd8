using ServiceRules.Storage.Tests.Due;

namespace ServiceRules.Storage.Tests.Postgres;

[Collection(PostgresTests.Name)]
public sealed class PostgresDueTests(PostgresFixture fixture)
    : DueContract(() => new Drawer(fixture.Server.NewDatabase()));
