using ServiceRules.Storage.Tests.Submitting;

namespace ServiceRules.Storage.Tests.Postgres;

[Collection(PostgresTestsBeside.Name)]
public sealed class PostgresAnyCaseTests(PostgresFixture fixture)
    : AnyCaseContract(() => new Drawer(fixture.Server.NewDatabase()));
