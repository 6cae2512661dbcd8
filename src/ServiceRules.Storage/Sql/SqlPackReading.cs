using System.Collections.Immutable;
using System.Data.Common;
using ServiceRules.Application.Packs;

namespace ServiceRules.Storage.Sql;

/// <summary>Questions about packs and sheets on one connection.</summary>
internal class SqlPackReading(DbConnection connection)
{
    private const string Columns = "number, digest, at, reason, by_whom, entry_index";

    public RulesActivation? InForce() => Activations(1).FirstOrDefault();

    public ImmutableArray<RulesActivation> Activations(int most) =>
        [
            .. connection.Rows(
                $"SELECT {Columns} FROM rule_activation ORDER BY number DESC LIMIT @most",
                Activation,
                ("@most", (long)most)
            ),
        ];

    public ImmutableArray<StoredRules> Stored(int most) =>
        [
            .. connection.Rows(
                "SELECT digest, stored_at FROM rule_set ORDER BY stored_at DESC, digest LIMIT @most",
                row => new StoredRules(row.Text(0), DateTimeOffset.FromUnixTimeMilliseconds(row.Number(1))),
                ("@most", (long)most)
            ),
        ];

    public ReadOnlyMemory<byte>? Book(string digest) =>
        connection.One<byte[]>("SELECT book FROM rule_set WHERE digest = @digest", ("@digest", digest))
            is { } bytes
            ? new ReadOnlyMemory<byte>(bytes)
            // Null alone would be an empty content.
            : default(ReadOnlyMemory<byte>?);

    private static RulesActivation Activation(DbDataReader row) =>
        new(row.Number(0), row.Text(1), DateTimeOffset.FromUnixTimeMilliseconds(row.Number(2)), row.Text(3))
        {
            By = row.TextOrNone(4),
            Entry = row.NumberOrNone(5),
        };
}
