using ServiceRules.Storage.Tests.Submitting;

namespace ServiceRules.Storage.Tests.Postgres;

[Collection(PostgresTestsBeside.Name)]
public sealed class PostgresDaysTests(PostgresFixture fixture)
    : DaysContract(() => new Drawer(fixture.Server.NewDatabase()));
