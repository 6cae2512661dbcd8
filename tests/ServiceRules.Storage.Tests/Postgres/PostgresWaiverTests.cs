using ServiceRules.Storage.Tests.Packs;

namespace ServiceRules.Storage.Tests.Postgres;

[Collection(PostgresTestsBeside.Name)]
public sealed class PostgresWaiverTests(PostgresFixture fixture)
    : WaiverContract(() => new Drawer(fixture.Server.NewDatabase())) { }
