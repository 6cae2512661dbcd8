using ServiceRules.Storage.Tests.Submitting;

namespace ServiceRules.Storage.Tests.Postgres;

[Collection(PostgresTests.Name)]
public sealed class PostgresProofTests(PostgresFixture fixture)
    : ProofContract(() => new Drawer(fixture.Server.NewDatabase()));
