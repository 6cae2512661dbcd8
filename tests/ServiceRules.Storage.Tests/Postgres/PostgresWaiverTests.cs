using ServiceRules.Storage.Tests.Packs;

namespace ServiceRules.Storage.Tests.Postgres;

[Collection(PostgresTests.Name)]
public sealed class PostgresWaiverTests(PostgresFixture fixture)
    : WaiverContract(() => new Drawer(fixture.Server.NewDatabase())) { }
