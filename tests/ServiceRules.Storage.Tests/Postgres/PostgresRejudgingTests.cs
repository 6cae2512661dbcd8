using ServiceRules.Storage.Tests.Rejudging;

namespace ServiceRules.Storage.Tests.Postgres;

[Collection(PostgresTests.Name)]
public sealed class PostgresRejudgingTests(PostgresFixture fixture)
    : RejudgingContract(() => new Drawer(fixture.Server.NewDatabase()));
