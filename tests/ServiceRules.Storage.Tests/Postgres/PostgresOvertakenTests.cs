using ServiceRules.Storage.Tests.Submitting;

namespace ServiceRules.Storage.Tests.Postgres;

[Collection(PostgresTestsBeside.Name)]
public sealed class PostgresOvertakenTests(PostgresFixture fixture)
    : OvertakenContract(() => new Drawer(fixture.Server.NewDatabase()));
