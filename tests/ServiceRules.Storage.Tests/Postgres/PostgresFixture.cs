using ServiceRules.TestKit;

namespace ServiceRules.Storage.Tests.Postgres;

/// <summary>One server for all tests that need one, started by the first.</summary>
public sealed class PostgresFixture : IDisposable
{
    private readonly Lazy<PostgresServer> _server = new(PostgresServer.Require);

    public PostgresServer Server => _server.Value;

    public void Dispose()
    {
        if (_server.IsValueCreated)
        {
            _server.Value.Dispose();
        }
    }
}
