using System.Data.Common;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Rows;
using ServiceRules.Application.Submitting;
using ServiceRules.Storage.Sql;

namespace ServiceRules.Storage.Tests.Submitting;

/// <summary>The newest versions of the records of some days of a site.</summary>
public abstract class DaysContract : DrawerContract
{
    private const int Records = 12_000;

    private protected DaysContract(Func<Drawer> drawer)
        : base(drawer) { }

    [SkippableFact]
    public async Task Records_OfDays_AreTheNewestOfTheSiteInTheirOrder()
    {
        await using (var counter = new Counter(Drawer, site: "alder"))
        {
            await counter.SubmitAsync(Jobs.Job("J-4"));
            await counter.SubmitAsync(Jobs.Job("J-2"));
            await counter.SubmitAsync(Jobs.Job("J-3"));
            await counter.SubmitAsync(Jobs.Job("J-1"));
            Assert.IsType<SubmissionOutcome.Amended>(
                await counter.SubmitAsync(
                    Jobs.Job("J-2", Jobs.Mend),
                    null,
                    new Correction("lead-01", "read again")
                )
            );
        }

        await using var other = new Counter(Drawer, site: "birch");
        await other.SubmitAsync(Jobs.Job("J-3", job => job["id"] = "J-33"));

        var found = other.Rows.OfDays("alder", new(2026, 4, 14), new(2026, 4, 15));

        Assert.Equal(["J-2", "J-3"], found.Select(row => row.Record));
        Assert.True(found[0].IsAmendment);
        Assert.Equal(
            "J-33",
            Assert.Single(other.Rows.OfDays("birch", DateOnly.MinValue, DateOnly.MaxValue)).Record
        );
        Assert.Empty(other.Rows.OfDays("cedar", DateOnly.MinValue, DateOnly.MaxValue));
    }

    [SkippableFact]
    public void Records_OfDays_AreFoundByAnIndexAndListsGoByTheirEntries()
    {
        using var folder = Drawer.Open();
        Fill();

        var days = Plan(
            folder,
            connection =>
                connection.Rows(
                    Explain + SqlHeldRows.OfDays,
                    Told,
                    ("@site", "alder"),
                    ("@from", 20_100L),
                    ("@until", 20_130L)
                )
        );
        var list = Plan(
            folder,
            connection =>
                new SqlQuestion(new RowPaging(), null)
                    .Of(
                        new()
                        {
                            Site = "alder",
                            From = new(2020, 1, 1),
                            Until = new(2030, 1, 1),
                        }
                    )
                    .Page(
                        connection,
                        $"{Explain}SELECT {SqlHeldRows.RecordColumns} FROM record_row r",
                        Told,
                        _ => default
                    )
                    .Rows
        );

        Assert.Contains("record_row_by_day", days, StringComparison.Ordinal);
        Assert.DoesNotContain("record_row_by_day", list, StringComparison.Ordinal);
        Assert.DoesNotContain("TEMP B-TREE", list, StringComparison.Ordinal);
    }

    private string Explain => Drawer.IsPostgres ? "EXPLAIN " : "EXPLAIN QUERY PLAN ";

    private string Told(DbDataReader row) => row.GetString(Drawer.IsPostgres ? 0 : 3);

    private static string Plan(LedgerFolder folder, Func<DbConnection, IEnumerable<string>> ask) =>
        ((SqlLedgerStore)folder.Store).OnConnection(connection => string.Join('\n', ask(connection)));

    private void Fill()
    {
        var series = Drawer.IsPostgres
            ? $"SELECT i FROM generate_series(1, {Records}) AS s(i)"
            : $"WITH RECURSIVE s(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM s WHERE i < {Records}) SELECT i FROM s";
        var text = Drawer.IsPostgres ? "::text" : "";
        Drawer.Change(
            $"""
            INSERT INTO record_row (entry_index, record, site, machine, tasks, day, filed_at, amends, newest, state, record_hash)
            SELECT i, 'J-' || i{text}, CASE WHEN i % 2 = 0 THEN 'alder' ELSE 'birch' END, 'M-' || (i % 1000){text}, 'height-check',
                20000 + i % 1000, 0, 0, 1, 'signed-off', 'sha256:0' FROM ({series}) AS n;
            ANALYZE
            """
        );
    }
}
