using System.Data.Common;
using System.Text;
using Microsoft.Data.Sqlite;
using ServiceRules.Application.Accounts;
using ServiceRules.Application.Filed;
using ServiceRules.Application.Ledger;

namespace ServiceRules.Storage.Tests;

/// <summary>A ledger in a folder of its own, gone with the test. Setting orders are the lightest thing to file.</summary>
/// <param name="postgres">Where its database is; null: in the folder.</param>
internal sealed class Drawer(string? postgres = null) : IDisposable
{
    private readonly string _root = Directory.CreateTempSubdirectory("servicerules-ledger-").FullName;

    public bool IsPostgres => postgres is not null;

    public string Folder => Path.Combine(_root, "ledger");

    public string Database => Path.Combine(Folder, LedgerFolder.DatabaseName);

    public string Outside => CheckpointFolder.Beside(Folder);

    public CheckpointFolder Shelf => new(Outside);

    public void Dispose() => Directory.Delete(_root, recursive: true);

    public string At(string name) => Path.Combine(_root, name);

    public LedgerFolder Open()
    {
        if (postgres is not null && PrivateFolder.Make(Folder) is null)
        {
            _ = DurableFile.WriteNew(
                At("ledger/" + LedgerFolder.AddressName),
                Encoding.UTF8.GetBytes(postgres + "\n"),
                DurableFile.Private
            );
        }

        return LedgerFolder.OpenOrCreate(Folder);
    }

    public LedgerOpening Opening(LedgerFolder folder) =>
        OpenLedger.Open(folder.Store, Shelf, folder.Signer, TimeProvider.System);

    public OpenLedger Opened(LedgerFolder folder) =>
        Opening(folder) switch
        {
            LedgerOpening.Opened opened => opened.Ledger,
            LedgerOpening.Refused refused => throw new InvalidOperationException(
                string.Join("; ", refused.Faults)
            ),
            _ => throw new InvalidOperationException(),
        };

    /// <summary>Its accounts, with their acts in the log.</summary>
    public IAccountStore Accounts(LedgerFolder folder) => new LoggedAccounts(Opened(folder), folder.Accounts);

    /// <summary>Files orders from one number on, each by a process of its own as far as the store can tell.</summary>
    public void File(int count, int from = 1)
    {
        for (var order = from; order < from + count; order++)
        {
            using var folder = Open();
            Assert.IsType<FilingOutcome.Filed>(File(Opened(folder), order));
        }
    }

    public static FilingOutcome File(OpenLedger ledger, int order) =>
        new FileSiteDocument(ledger).SettingOrder(Order(order), null);

    public static byte[] Order(int number) =>
        Encoding.UTF8.GetBytes(
            $$"""
            { "format": "setting-order/1", "id": "SO-{{number}}", "by": "lead-01", "from": "2026-04-01",
              "targets": [{ "area": "golf-greens", "quantity": "height-of-cut", "target": "3.8 mm" }], "schools": [] }
            """
        );

    public IReadOnlyList<string> CodesAtOpening()
    {
        using var folder = Open();
        return Opening(folder) is LedgerOpening.Refused refused
            ? [.. refused.Faults.Select(fault => fault.Code).Distinct()]
            : [];
    }

    public LedgerVerified Verify()
    {
        using var folder = Open();
        var outside = Shelf.All().ToList();
        var damage = folder.Store.Check();
        return folder.Store.Read(
            (log, rows) =>
                new VerifyLedger(log, folder.Signer.Key) { Rows = rows, Beside = folder.Beside }.Verify(
                    outside,
                    damage
                )
        );
    }

    /// <summary>What somebody who may write to the tables can do; those of rows have no guards.</summary>
    public void Change(string sql)
    {
        using DbConnection connection = postgres is null
            ? new SqliteConnection($"Data Source={Database};Pooling=False")
            : new Npgsql.NpgsqlConnection(postgres);
        connection.Open();
        using var command = connection.CreateCommand();
#pragma warning disable CA2100 // The statements are those of the tests.
        command.CommandText = sql;
#pragma warning restore CA2100
        command.ExecuteNonQuery();
    }

    /// <summary>The same where tables have guards.</summary>
    public void Unguarded(string sql)
    {
        if (postgres is null)
        {
            Spoil(sql);
        }
        else
        {
            Change($"SET session_replication_role = replica; {sql}");
        }
    }

    /// <summary>What somebody with the file and any SQLite tool can do.</summary>
    public void Spoil(string sql)
    {
        using var connection = new SqliteConnection($"Data Source={Database};Pooling=False");
        connection.Open();
        using var command = connection.CreateCommand();
#pragma warning disable CA2100 // The statements are those of the tests.
        command.CommandText = "SELECT group_concat(sql, '; ') FROM sqlite_schema WHERE type = 'trigger'";
        var guards = (string)command.ExecuteScalar()!;
        command.CommandText =
            "SELECT group_concat('DROP TRIGGER ' || name, '; ') FROM sqlite_schema WHERE type = 'trigger'";
        var unguarding = (string)command.ExecuteScalar()!;
        command.CommandText = $"{unguarding}; {sql}; {guards}";
#pragma warning restore CA2100
        command.ExecuteNonQuery();
    }
}
