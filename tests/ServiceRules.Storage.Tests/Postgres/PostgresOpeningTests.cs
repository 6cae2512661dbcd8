using Npgsql;
using ServiceRules.Application.Ledger;
using ServiceRules.Storage.Postgres;
using ServiceRules.Storage.Tests.Submitting;

namespace ServiceRules.Storage.Tests.Postgres;

[Collection(PostgresTests.Name)]
public sealed class PostgresOpeningTests(PostgresFixture fixture)
{
    [SkippableFact]
    public void Open_AddressThatSwitchesOffTheSync_IsRefused()
    {
        var address = fixture.Server.NewDatabase();

        var refused = Assert.Throws<LedgerStoreException>(() =>
            PostgresLedgerStore.Open(address + ";Options=-c synchronous_commit=off")
        );

        Assert.Contains("synchronous_commit is `off`", refused.Message, StringComparison.Ordinal);
    }

    [SkippableFact]
    public void Open_DatabaseThatSwitchesOffTheSyncByDefault_SyncsAllTheSame()
    {
        var address = fixture.Server.NewDatabase();
        var name = new NpgsqlConnectionStringBuilder(address).Database;
        fixture.Server.Execute("postgres", $"ALTER DATABASE {name} SET synchronous_commit = off");

        using var store = PostgresLedgerStore.Open(address);

        Assert.Null(store.Head);
    }

    [SkippableFact]
    public void Open_DatabaseInAnotherEncoding_IsRefusedBeforeAnythingIsMade()
    {
        var address = new NpgsqlConnectionStringBuilder(fixture.Server.NewDatabase()) { Database = "latin" };
        fixture.Server.Execute("postgres", "CREATE DATABASE latin TEMPLATE template0 ENCODING 'LATIN1'");

        var refused = Assert.Throws<LedgerStoreException>(() =>
            PostgresLedgerStore.Open(address.ConnectionString)
        );

        Assert.Contains("server_encoding is `LATIN1`", refused.Message, StringComparison.Ordinal);
    }

    [SkippableFact]
    public void Write_CommitThatFails_IsToldAsPerhapsDone()
    {
        var address = fixture.Server.NewDatabase();
        using var store = PostgresLedgerStore.Open(address);
        fixture.Server.Execute(
            new NpgsqlConnectionStringBuilder(address).Database!,
            """
            CREATE FUNCTION late() RETURNS trigger LANGUAGE plpgsql AS
                $$ BEGIN RAISE EXCEPTION 'late' USING ERRCODE = 'lock_not_available'; END $$;
            CREATE CONSTRAINT TRIGGER late AFTER INSERT ON content DEFERRABLE INITIALLY DEFERRED
                FOR EACH ROW EXECUTE FUNCTION late()
            """
        );

        var failed = Assert.Throws<LedgerStoreException>(() =>
            store.Write(writing =>
            {
                writing.Keep(Evidence.ContentHash.Of("kept"u8), "kept"u8.ToArray());
                return true;
            })
        );

        Assert.Equal(StoreTrouble.Gone, failed.Trouble);
    }

    [SkippableFact]
    public async Task Submit_ConnectionThatIsCutOffInTheMiddle_IsTrouble()
    {
        using var drawer = new Drawer(fixture.Server.NewDatabase());
        await using var counter = new Counter(drawer);
        await counter.SubmitAsync(Jobs.Job("J-0"));

        var failed = Assert.ThrowsAny<LedgerStoreException>(() =>
            counter.Store.Write(writing =>
            {
                fixture.Server.Execute(
                    "postgres",
                    "SELECT pg_terminate_backend(pid) FROM pg_stat_activity WHERE application_name = 'servicerules'"
                );
                for (var tries = 0; tries < 3; tries++)
                {
                    try
                    {
                        _ = writing.Within(() => writing.PseudonymFor("tech-02"));
                    }
                    catch (LedgerStoreException) { }
                }

                return writing.Within(() => writing.PseudonymFor("tech-02"));
            })
        );

        Assert.True(failed.EndsTransaction);
        Assert.IsType<Application.Submitting.SubmissionOutcome.Stored>(
            await counter.SubmitAsync(Jobs.Job("J-1"))
        );
    }
}
