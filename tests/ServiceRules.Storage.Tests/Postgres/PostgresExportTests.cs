using ServiceRules.Storage.Tests.Exporting;

namespace ServiceRules.Storage.Tests.Postgres;

[Collection(PostgresTests.Name)]
public sealed class PostgresExportTests(PostgresFixture fixture)
    : ExportContract(() => new Drawer(fixture.Server.NewDatabase()));
