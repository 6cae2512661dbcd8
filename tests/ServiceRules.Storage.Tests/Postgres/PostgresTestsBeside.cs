namespace ServiceRules.Storage.Tests.Postgres;

/// <summary>As many again, at a second server, so that neither half waits for the other.</summary>
[CollectionDefinition(Name)]
public sealed class PostgresTestsBeside : ICollectionFixture<PostgresFixture>
{
    public const string Name = "a second PostgreSQL server";
}
