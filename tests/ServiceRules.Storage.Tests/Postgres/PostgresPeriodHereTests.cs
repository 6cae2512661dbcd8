using ServiceRules.Storage.Tests.Reports;

namespace ServiceRules.Storage.Tests.Postgres;

[Collection(PostgresTestsBeside.Name)]
public sealed class PostgresPeriodHereTests(PostgresFixture fixture)
    : PeriodHereContract(() => new Drawer(fixture.Server.NewDatabase()));
