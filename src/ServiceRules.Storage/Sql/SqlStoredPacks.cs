using System.Collections.Immutable;
using ServiceRules.Application.Packs;

namespace ServiceRules.Storage.Sql;

/// <summary>Packs and sheets, each question on a connection of its own.</summary>
internal sealed class SqlStoredPacks(SqlLedgerStore store) : IRulesStore
{
    public RulesActivation? InForce() => Ask(packs => packs.InForce());

    public ImmutableArray<RulesActivation> Activations(int most) => Ask(packs => packs.Activations(most));

    public ImmutableArray<StoredRules> Stored(int most) => Ask(packs => packs.Stored(most));

    public ReadOnlyMemory<byte>? Book(string digest) => Ask(packs => packs.Book(digest));

    public RulesActivation Begin(
        string digest,
        ReadOnlyMemory<byte> book,
        DateTimeOffset at,
        string reason
    ) =>
        store.WriteBeside(connection =>
        {
            var packs = new SqlPackWriting(connection);
            if (packs.InForce() is null)
            {
                _ = packs.Keep(digest, book, at);
                _ = packs.Insert(new RulesActivation(1, digest, at, reason));
            }

            return packs.InForce()!;
        });

    private T Ask<T>(Func<SqlPackReading, T> question) =>
        store.OnConnection(connection => question(new SqlPackReading(connection)));
}
