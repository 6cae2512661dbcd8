using System.Collections.Immutable;
using ServiceRules.Application.Waiving;

namespace ServiceRules.Storage.Sql;

/// <summary>Waivers, each question on a connection of its own.</summary>
internal sealed class SqlStoredWaivers(SqlLedgerStore store) : IWaiverReading
{
    public WaiverMark Mark(string site) =>
        store.OnConnection(connection => new SqlWaiverReading(connection).Mark(site));

    public ImmutableArray<KeptWaiver> Of(string site) =>
        store.OnConnection(connection => new SqlWaiverReading(connection).Of(site));

    public ImmutableArray<WaiverRow> Rows() =>
        store.OnConnection(connection => new SqlWaiverReading(connection).Rows());
}
