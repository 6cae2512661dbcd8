using Microsoft.Data.Sqlite;
using ServiceRules.Application.Ledger;
using ServiceRules.Evidence;
using ServiceRules.Storage.Sqlite;

namespace ServiceRules.Storage.Tests.Sqlite;

public sealed class SqliteLedgerStoreTests : IDisposable
{
    private readonly Drawer _drawer = new();

    public void Dispose() => _drawer.Dispose();

    private static SqliteConnection Connection(LedgerFolder folder) =>
        ((SqliteLedgerStore)folder.Store).Connection;

    private static object? Run(SqliteConnection connection, string sql)
    {
        using var command = connection.CreateCommand();
#pragma warning disable CA2100 // The statements are those of the tests.
        command.CommandText = sql;
#pragma warning restore CA2100
        return command.ExecuteScalar();
    }

    [Theory]
    [InlineData("PRAGMA journal_mode", "wal")]
    [InlineData("PRAGMA synchronous", "2")]
    [InlineData("PRAGMA secure_delete", "1")]
    public void Open_Settings_AreThoseThatKeepWhatWasAcknowledged(string ask, string answer)
    {
        using var folder = _drawer.Open();

        Assert.Equal(answer, Run(Connection(folder), ask)!.ToString());
    }

    [Fact]
    public void Write_WorkThatThrows_LeavesNothing()
    {
        _drawer.File(1);
        using var folder = _drawer.Open();
        var hash = ContentHash.Of("content"u8);

        Assert.Throws<InvalidOperationException>(() =>
            folder.Store.Write<bool>(writing =>
            {
                writing.Keep(hash, "content"u8.ToArray());
                writing.PseudonymFor("tech-01");
                throw new InvalidOperationException("stop");
            })
        );

        Assert.Null(folder.Store.Content(hash));
        Assert.Null(folder.Store.PseudonymOf("tech-01"));
    }

    [Theory]
    [InlineData("DELETE FROM entry")]
    [InlineData("UPDATE entry SET bytes = CAST('{}' AS BLOB)")]
    public void Entry_ByOurOwnMistake_IsNeitherRemovedNorChanged(string sql)
    {
        _drawer.File(1);
        using var folder = _drawer.Open();

        var refused = Assert.Throws<SqliteException>(() => Run(Connection(folder), sql));

        Assert.Contains("an entry of the log is never", refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void PseudonymFor_APerson_IsDrawnAndStays()
    {
        using var folder = _drawer.Open();
        using var other = new Drawer();
        using var elsewhere = other.Open();

        var first = folder.Store.Write(writing => writing.PseudonymFor("tech-01"));

        Assert.Matches("^p-[0-9a-f]{16}$", first);
        Assert.Equal(first, folder.Store.Write(writing => writing.PseudonymFor("tech-01")));
        Assert.NotEqual(first, folder.Store.Write(writing => writing.PseudonymFor("tech-02")));
        Assert.NotEqual(first, elsewhere.Store.Write(writing => writing.PseudonymFor("tech-01")));
    }

    [Theory]
    [InlineData("UPDATE person SET person = 'tech-77'", 1, 0)]
    [InlineData("UPDATE person SET person = 'tech-77', salt = randomblob(32)", 1, 0)]
    [InlineData("UPDATE person SET person = 'tech-77', salt = NULL", 0, 1)]
    [InlineData("DELETE FROM person", 0, 0)]
    public void Verify_AnotherNamePutBehindAPseudonym_IsSeen(string sql, int faults, int remarks)
    {
        _drawer.File(1);
        Assert.Empty(_drawer.Verify().Faults);

        _drawer.Spoil(sql);

        var verified = _drawer.Verify();
        Assert.Equal(faults, verified.Faults.Count(fault => fault.Code == LedgerFaultCode.Person));
        Assert.Equal(
            remarks,
            verified.Remarks.Count(remark => remark.StartsWith("nothing says", StringComparison.Ordinal))
        );
    }

    [SkippableFact]
    public void Forget_APerson_LeavesNothingInTheWriteAheadLogEither()
    {
        Skip.If(OperatingSystem.IsWindows(), "an open database cannot be read beside");
        using var folder = _drawer.Open();
        var ledger = _drawer.Opened(folder);
        Drawer.File(ledger, 1);
        Assert.Contains("lead-01", Kept(), StringComparison.Ordinal);

        Assert.IsType<FilingOutcome.Filed>(
            new ForgetPerson(ledger).Forget("lead-01", new Correction("officer-01", "asked for it"), true)
        );

        Assert.DoesNotContain("lead-01", Kept(), StringComparison.Ordinal);

        string Kept() =>
            string.Concat(
                Directory
                    .EnumerateFiles(_drawer.Folder, "ledger.db*")
                    .Select(file => System.Text.Encoding.Latin1.GetString(File.ReadAllBytes(file)))
            );
    }

    [Fact]
    public async Task File_FourProcessesAtOnce_MakeOneLogWithoutGapOrFork()
    {
        _drawer.Open().Dispose();
        await Task.WhenAll(
            Enumerable.Range(0, 4).Select(worker => Task.Run(() => _drawer.File(8, 1 + (100 * worker))))
        );

        var verified = _drawer.Verify();

        Assert.Empty(verified.Faults);
        Assert.Equal(32, verified.Size);
        // Whoever opens it between a filing and its checkpoint keeps that one too.
        Assert.Equal(32, _drawer.Shelf.All().Select(one => one.Note).Distinct().Count());
    }

    [Fact]
    public async Task File_SameDocumentFromManyAtOnce_IsFiledOnce()
    {
        _drawer.Open().Dispose();
        var outcomes = await Task.WhenAll(
            Enumerable
                .Range(0, 12)
                .Select(_ =>
                    Task.Run(() =>
                    {
                        using var folder = _drawer.Open();
                        return Assert.IsType<FilingOutcome.Filed>(Drawer.File(_drawer.Opened(folder), 1));
                    })
                )
        );

        Assert.Single(outcomes, outcome => outcome.IsNew);
        Assert.Equal(1, _drawer.Verify().Size);
    }

    [Fact]
    public void File_DiskFull_SaysSoKeepsNothingAndRecovers()
    {
        _drawer.File(1);
        using var folder = _drawer.Open();
        var ledger = _drawer.Opened(folder);
        Run(Connection(folder), "PRAGMA max_page_count = 1");
        var big = Order("3.8 mm", 20_000);

        var failure = Assert.Throws<LedgerStoreException>(() =>
            new FileSiteDocument(ledger).SettingOrder(big, null)
        );
        Assert.Equal(StoreTrouble.Full, failure.Trouble);
        Assert.Equal(1, folder.Store.Head!.Size);

        Run(Connection(folder), "PRAGMA max_page_count = 1000000");
        Assert.IsType<FilingOutcome.Filed>(new FileSiteDocument(ledger).SettingOrder(big, null));
        Assert.Empty(_drawer.Verify().Faults);
    }

    [Fact]
    public void File_ReadOnly_SaysSoAndRecovers()
    {
        _drawer.File(1);
        using var folder = _drawer.Open();
        var ledger = _drawer.Opened(folder);
        Run(Connection(folder), "PRAGMA query_only = ON");

        var failure = Assert.Throws<LedgerStoreException>(() => Drawer.File(ledger, 2));
        Assert.Equal(StoreTrouble.ReadOnly, failure.Trouble);

        Run(Connection(folder), "PRAGMA query_only = OFF");
        Assert.IsType<FilingOutcome.Filed>(Drawer.File(ledger, 2));
    }

    [Fact]
    public void File_KeptLockedByAnother_SaysSoAndRecovers()
    {
        _drawer.File(1);
        using var folder = _drawer.Open();
        var ledger = _drawer.Opened(folder);
        Connection(folder).DefaultTimeout = 1;
        using var other = new SqliteConnection($"Data Source={_drawer.Database};Pooling=False");
        other.Open();
        Run(other, "BEGIN IMMEDIATE");

        var failure = Assert.Throws<LedgerStoreException>(() => Drawer.File(ledger, 2));
        Assert.Equal(StoreTrouble.Busy, failure.Trouble);

        Run(other, "ROLLBACK");
        Assert.IsType<FilingOutcome.Filed>(Drawer.File(ledger, 2));
    }

    [Fact]
    public void Open_WriteAheadLogCut_NamesTheLossAgainstTheCheckpointsOutside()
    {
        var (database, log) = WithWriteAheadLog(6);
        var lost = 0;

        for (var cut = 0; cut < log.Length; cut += 4_001)
        {
            File.WriteAllBytes(_drawer.Database, database);
            File.WriteAllBytes(_drawer.Database + "-wal", log[..cut]);
            File.Delete(_drawer.Database + "-shm");
            Assert.Equal([LedgerFaultCode.Shorter], _drawer.CodesAtOpening());
            lost++;
        }

        Assert.InRange(lost, 5, int.MaxValue);
        File.WriteAllBytes(_drawer.Database, database);
        File.WriteAllBytes(_drawer.Database + "-wal", log);
        File.Delete(_drawer.Database + "-shm");
        Assert.Empty(_drawer.CodesAtOpening());
    }

    /// <summary>The files as they lie on the disk when the power goes after the last acknowledged filing.</summary>
    private (byte[] Database, byte[] Log) WithWriteAheadLog(int orders)
    {
        _drawer.Open().Dispose();
        using var folder = _drawer.Open();
        var ledger = _drawer.Opened(folder);
        for (var order = 1; order <= orders; order++)
        {
            Assert.IsType<FilingOutcome.Filed>(Drawer.File(ledger, order));
        }

        return (Read(_drawer.Database), Read(_drawer.Database + "-wal"));
    }

    private static byte[] Read(string path)
    {
        using var file = new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.ReadWrite);
        var bytes = new byte[file.Length];
        file.ReadExactly(bytes);
        return bytes;
    }

    private static byte[] Order(string target, int padding) =>
        System.Text.Encoding.UTF8.GetBytes(
            $$"""
            { "format": "setting-order/1", "id": "SO-big", "by": "lead-01", "from": "2026-04-01", "targets": [{{string.Join(
                ',',
                Enumerable
                    .Range(0, padding / 100)
                    .Select(area => $$"""{ "area": "area-{{area}}", "quantity": "height-of-cut", "target": "{{target}}" }""")
            )}}], "schools": [] }
            """
        );
}
