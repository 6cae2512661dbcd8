using ServiceRules.Storage.Tests.Sites;

namespace ServiceRules.Storage.Tests.Postgres;

[Collection(PostgresTestsBeside.Name)]
public sealed class PostgresSiteTests(PostgresFixture fixture)
    : SiteContract(() => new Drawer(fixture.Server.NewDatabase()));
