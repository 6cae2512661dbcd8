using Microsoft.Data.Sqlite;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Rows;
using ServiceRules.Application.Submitting;
using ServiceRules.Storage.Sqlite;
using ServiceRules.Storage.Tests.Submitting;

namespace ServiceRules.Storage.Tests.Sqlite;

public sealed class SqliteSubmissionTests() : SubmissionContract(() => new Drawer())
{
    [Theory]
    [InlineData("PRAGMA max_page_count = 1", "PRAGMA max_page_count = 1000000", StoreTrouble.Full)]
    [InlineData("PRAGMA query_only = ON", "PRAGMA query_only = OFF", StoreTrouble.ReadOnly)]
    public async Task Submit_ManyAtOnceOnADiskThatWillNot_AreEachToldAndFiledOnceItWill(
        string shut,
        string open,
        StoreTrouble expected
    )
    {
        await using var counter = new Counter(Drawer);
        Assert.IsType<SubmissionOutcome.Stored>(await counter.SubmitAsync(Jobs.Job("J-0")));
        var size = counter.Ledger.Head!.Size;
        Run(counter, shut);

        var refused = await All(counter);

        Assert.All(
            refused,
            outcome => Assert.Equal(expected, Assert.IsType<SubmissionOutcome.Trouble>(outcome).What)
        );
        Assert.Equal(size, counter.Store.Head!.Size);
        Assert.Single(counter.All().Records);
        Run(counter, open);
        Assert.All(await All(counter), outcome => Assert.IsType<SubmissionOutcome.Stored>(outcome));
        Assert.Equal(9, counter.All().Records.Count);
        Assert.Empty(Drawer.Verify().Faults);
    }

    [Fact]
    public async Task Submit_FileKeptLockedByAnother_IsBusyAndRecovers()
    {
        await using var counter = new Counter(Drawer);
        await counter.SubmitAsync(Jobs.Job("J-0"));
        Connection(counter).DefaultTimeout = 1;
        await using var other = new SqliteConnection($"Data Source={Drawer.Database};Pooling=False");
        await other.OpenAsync();
        await using var holding = other.BeginTransaction(deferred: false);

        var busy = await counter.SubmitAsync(Jobs.Job("J-1"));
        await holding.RollbackAsync();

        Assert.Equal(StoreTrouble.Busy, Assert.IsType<SubmissionOutcome.Trouble>(busy).What);
        Assert.IsType<SubmissionOutcome.Stored>(await counter.SubmitAsync(Jobs.Job("J-1")));
    }

    [Fact]
    public async Task Rows_OfALedgerFromBeforeThereWereAny_AreBroughtUp()
    {
        await using var counter = new Counter(Drawer);
        await counter.SubmitAsync(Jobs.Job("J-0"));
        await counter.SubmitAsync(Jobs.Job("J-1"));
        var before = counter.All();
        Run(
            counter,
            "DELETE FROM record_row; DELETE FROM unit_row; DELETE FROM finding_row; DELETE FROM shown_row; DELETE FROM row_cover"
        );

        // Filed before they are brought up: what was there already is still missing, and the rows do not say otherwise.
        await counter.SubmitAsync(Jobs.Job("J-2"));
        Assert.Equal(0, counter.Rows.Covered);

        Assert.Equal(7, new FollowLog(counter.Ledger).BringUp());
        Assert.Equal(before.Records, counter.All().Records.Skip(1));
        Assert.Equal(7, counter.Rows.Covered);
    }

    private static async Task<SubmissionOutcome[]> All(Counter counter) =>
        await Task.WhenAll(
            Enumerable
                .Range(1, 8)
                .Select(at => Task.Run(() => counter.SubmitAsync(Jobs.Job($"J-{at}"), $"key-{at}")))
        );

    private static SqliteConnection Connection(Counter counter) =>
        ((SqliteLedgerStore)counter.Store).Connection;

    private static void Run(Counter counter, string sql)
    {
        using var command = Connection(counter).CreateCommand();
#pragma warning disable CA2100 // The statements are those of the tests.
        command.CommandText = sql;
#pragma warning restore CA2100
        command.ExecuteNonQuery();
    }
}
