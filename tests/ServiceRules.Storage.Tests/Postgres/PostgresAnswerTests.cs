using ServiceRules.Storage.Tests.Submitting;

namespace ServiceRules.Storage.Tests.Postgres;

[Collection(PostgresTests.Name)]
public sealed class PostgresAnswerTests(PostgresFixture fixture)
    : AnswerContract(() => new Drawer(fixture.Server.NewDatabase()));
