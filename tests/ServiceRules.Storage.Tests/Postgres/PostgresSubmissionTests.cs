using System.Diagnostics;
using Npgsql;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Submitting;
using ServiceRules.Storage.Postgres;
using ServiceRules.Storage.Tests.Submitting;

namespace ServiceRules.Storage.Tests.Postgres;

[Collection(PostgresTests.Name)]
public sealed class PostgresSubmissionTests : SubmissionContract
{
    private readonly PostgresFixture _fixture;
    private readonly Lazy<string> _address;

    public PostgresSubmissionTests(PostgresFixture fixture)
        : this(fixture, new Lazy<string>(() => fixture.Server.NewDatabase())) { }

    private PostgresSubmissionTests(PostgresFixture fixture, Lazy<string> address)
        : base(() => new Drawer(address.Value)) => (_fixture, _address) = (fixture, address);

    private string Database => new NpgsqlConnectionStringBuilder(_address.Value).Database!;

    [SkippableTheory]
    [InlineData("DELETE FROM entry")]
    [InlineData("UPDATE entry SET bytes = '{}'::bytea")]
    [InlineData("TRUNCATE entry")]
    public async Task Entry_ByOurOwnMistake_IsNeitherRemovedNorChanged(string sql)
    {
        await using var counter = new Counter(Drawer);
        await counter.SubmitAsync(Jobs.Job("J-1"));

        var refused = Assert.Throws<InvalidOperationException>(() => _fixture.Server.Execute(Database, sql));

        Assert.Contains("an entry of the log is never", refused.Message, StringComparison.Ordinal);
        Assert.Empty(Drawer.Verify().Faults);
    }

    [SkippableFact]
    public async Task Verify_AGuardTakenAway_IsTold()
    {
        await using var counter = new Counter(Drawer);
        await counter.SubmitAsync(Jobs.Job("J-1"));
        _fixture.Server.Execute(
            Database,
            "ALTER TABLE entry DISABLE TRIGGER entry_stays; DROP INDEX entry_by_subject"
        );

        Assert.Equal(
            ["its trigger `entry_stays` is missing", "its index `entry_by_subject` is missing"],
            counter.Store.Check()
        );
    }

    [SkippableFact]
    public async Task Submit_HeadKeptLockedByAnother_IsBusyAndRecovers()
    {
        using var drawer = new Drawer(_address.Value + ";Options=-c lock_timeout=200ms");
        await using var counter = new Counter(drawer);
        await using var other = new NpgsqlConnection(_address.Value);
        await other.OpenAsync();
        var holding = await other.BeginTransactionAsync();
        await using (var hold = new NpgsqlCommand("SELECT size FROM head FOR UPDATE", other))
        {
            await hold.ExecuteNonQueryAsync();
        }

        var busy = await counter.SubmitAsync(Jobs.Job("J-1"));
        await holding.RollbackAsync();

        Assert.Equal(StoreTrouble.Busy, Assert.IsType<SubmissionOutcome.Trouble>(busy).What);
        Assert.IsType<SubmissionOutcome.Stored>(await counter.SubmitAsync(Jobs.Job("J-1")));
    }

    [SkippableFact]
    public async Task Submit_ReadOnlyServer_SaysSoAndRecovers()
    {
        using var drawer = new Drawer(_address.Value + ";Pooling=false");
        await using var counter = new Counter(drawer);
        _fixture.Server.Execute(
            "postgres",
            $"ALTER DATABASE {Database} SET default_transaction_read_only = on"
        );

        var refused = await counter.SubmitAsync(Jobs.Job("J-1"));
        _fixture.Server.Execute("postgres", $"ALTER DATABASE {Database} RESET default_transaction_read_only");

        Assert.Equal(StoreTrouble.ReadOnly, Assert.IsType<SubmissionOutcome.Trouble>(refused).What);
        Assert.IsType<SubmissionOutcome.Stored>(await counter.SubmitAsync(Jobs.Job("J-1")));
    }

    [SkippableFact]
    public async Task Open_TwoInstancesWithKeysOfTheirOwnOnOneEmptyDatabase_SecondIsRefused()
    {
        using var stranger = new Drawer(_address.Value);
        await using var counter = new Counter(Drawer);
        await using var other = new Counter(stranger);
        Assert.IsType<SubmissionOutcome.Stored>(await counter.SubmitAsync(Jobs.Job("J-1")));

        var broken = Assert.IsType<SubmissionOutcome.Broken>(await other.SubmitAsync(Jobs.Job("J-2")));

        Assert.Equal(LedgerFaultCode.Checkpoint, broken.Fault.Code);
        Assert.Equal([LedgerFaultCode.Checkpoint], stranger.CodesAtOpening());
        Assert.Empty(Drawer.Verify().Faults);
    }

    [SkippableFact]
    public async Task Backup_OfAPostgresLog_SaysWhatCopiesItAndLeavesNothing()
    {
        await using var counter = new Counter(Drawer);
        await counter.SubmitAsync(Jobs.Job("J-1"));
        using var folder = Drawer.Open();

        var refused = Assert.Throws<LedgerStoreException>(() =>
            LedgerBackup.Make(folder, Drawer.At("backup"))
        );

        Assert.Contains("pg_dump", refused.Message, StringComparison.Ordinal);
        Assert.False(Directory.Exists(Drawer.At("backup")));
    }

    [SkippableFact]
    public async Task Dump_RestoredIntoAnotherDatabase_IsTheWholeLog()
    {
        await using (var counter = new Counter(Drawer))
        {
            await counter.SubmitAsync(Jobs.Job("J-1"));
            await counter.SubmitAsync(Jobs.Job("J-2"));
        }

        var other = _fixture.Server.NewDatabase();
        _fixture.Server.Copy(Database, new NpgsqlConnectionStringBuilder(other).Database!);
        File.WriteAllText(Path.Combine(Drawer.Folder, LedgerFolder.AddressName), other);

        Assert.Empty(Drawer.Verify().Faults);
        await using var again = new Counter(Drawer);
        Assert.Equal(2, again.All().Records.Count);
        Assert.IsType<SubmissionOutcome.Stored>(await again.SubmitAsync(Jobs.Job("J-3")));
    }

    [Theory]
    [InlineData("53100", StoreTrouble.Full)]
    [InlineData("25006", StoreTrouble.ReadOnly)]
    [InlineData("55P03", StoreTrouble.Busy)]
    [InlineData("53300", StoreTrouble.Busy)]
    [InlineData("57P01", StoreTrouble.Gone)]
    [InlineData("08006", StoreTrouble.Gone)]
    [InlineData("XX001", StoreTrouble.Damaged)]
    [InlineData("22021", StoreTrouble.Failed)]
    public void Trouble_OfAState_IsWhatItMeans(string state, StoreTrouble expected)
    {
        var told = PostgresTrouble.Of(new PostgresException("told", "ERROR", "ERROR", state), "the database");

        Assert.Equal(expected, told.Trouble);
    }

    [Fact]
    public void Open_AddressThatIsNone_IsRefusedWithoutTellingItsPassword()
    {
        var refused = Assert.Throws<LedgerStoreException>(() =>
            PostgresLedgerStore.Open("Host=db;Passwort=secret-word")
        );

        Assert.DoesNotContain("secret-word", refused.ToString(), StringComparison.Ordinal);
    }

    [SkippableFact]
    public void Open_ServerThatIsNotThere_SaysSoSoon()
    {
        var watch = Stopwatch.StartNew();

        var refused = Assert.Throws<LedgerStoreException>(() =>
            PostgresLedgerStore.Open(
                "Host=/nowhere;Database=ledger;Username=postgres;Password=secret-word;Timeout=2"
            )
        );

        Assert.Equal(StoreTrouble.Gone, refused.Trouble);
        Assert.DoesNotContain("secret-word", refused.ToString(), StringComparison.Ordinal);
        Assert.InRange(watch.Elapsed.TotalSeconds, 0, 30);
    }
}
