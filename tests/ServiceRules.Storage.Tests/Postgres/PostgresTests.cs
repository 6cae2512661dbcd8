namespace ServiceRules.Storage.Tests.Postgres;

/// <summary>The tests that share a server; they run one after the other.</summary>
[CollectionDefinition(Name)]
public sealed class PostgresTests : ICollectionFixture<PostgresFixture>
{
    public const string Name = "a PostgreSQL server";
}
