using ServiceRules.Storage.Tests.Keeping;

namespace ServiceRules.Storage.Tests.Postgres;

[Collection(PostgresTestsBeside.Name)]
public sealed class PostgresSenderKeptTests(PostgresFixture fixture)
    : SenderKeptContract(() => new Drawer(fixture.Server.NewDatabase()));
