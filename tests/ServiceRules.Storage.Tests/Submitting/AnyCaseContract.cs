using ServiceRules.Application.Rows;
using ServiceRules.Storage.Sql;

namespace ServiceRules.Storage.Tests.Submitting;

/// <summary>
/// Lists that are asked for without regard to capitals, and by a part of an identity: found by an index, or in so many entries at a time.
/// </summary>
public abstract class AnyCaseContract : DrawerContract
{
    private const int Records = 12_000;

    // What is looked through are entries: a filing makes several.
    private const int EntriesApart = 10;

    private protected AnyCaseContract(Func<Drawer> drawer)
        : base(drawer) { }

    [SkippableFact]
    public void Records_OfAMachineOrAUnitOfAnyCase_AreFoundByAnIndex()
    {
        using var folder = Drawer.Open();
        Fill();

        var machine = Plan(folder, new() { MachineOfAnyCase = "m-77" });
        var unit = Plan(folder, new() { UnitOfAnyCase = "u-77" });
        var exactly = Plan(folder, new() { Unit = "U-77" });
        var whole = Plan(folder, new() { Containing = "j-77" });

        Assert.Contains("record_row_by_machine_of_any_case", machine, StringComparison.Ordinal);
        Assert.Contains("unit_row_by_unit_of_any_case", unit, StringComparison.Ordinal);
        Assert.Contains("unit_row_by_unit", exactly, StringComparison.Ordinal);
        Assert.Contains("record_row_by_record_of_any_case", whole, StringComparison.Ordinal);
        foreach (var plan in new[] { machine, unit, exactly })
        {
            // SQLite calls it a scan; PostgreSQL a sequential one.
            Assert.DoesNotContain("SCAN r\n", plan + "\n", StringComparison.Ordinal);
            Assert.DoesNotContain("Seq Scan on record_row", plan, StringComparison.Ordinal);
            Assert.DoesNotContain("Seq Scan on unit_row", plan, StringComparison.Ordinal);
        }

        Assert.Equal(12, Indexes(folder, new() { MachineOfAnyCase = "m-77" }, null, out _).Count);
        Assert.Equal(12, Indexes(folder, new() { UnitOfAnyCase = "u-77" }, null, out _).Count);
    }

    [SkippableFact]
    public void Records_ByAPartOfTheirIdentity_AreLookedForInSoManyEntriesAtATime()
    {
        using var folder = Drawer.Open();
        Fill();
        var filter = new RecordFilter { Containing = "J-777" };

        // The whole one comes first, though it is the oldest; the others as pages come to them.
        var found = Indexes(folder, filter, null, out var next);
        Assert.Equal(7_770, found[0]);
        var pages = 1;
        while (next is { } beyond)
        {
            found.AddRange(Indexes(folder, filter, beyond, out next));
            pages++;
        }

        Assert.Equal(3, pages);
        Assert.Equal(
            [7_770, .. Enumerable.Range(0, 10).Select(end => 77_790L - (end * EntriesApart))],
            found
        );
        Assert.Equal(found.Order(), Oldest(folder, filter).Order());
    }

    [SkippableFact]
    public void Letters_OfAsciiAlone_AreMadeSmall()
    {
        using var folder = Drawer.Open();
        Fill(1);
        Drawer.Change("UPDATE record_row SET machine = 'M-ÄI' WHERE record = 'J-1'");

        Assert.Single(Indexes(folder, new() { MachineOfAnyCase = "m-Äi" }, null, out _));
        Assert.Empty(Indexes(folder, new() { MachineOfAnyCase = "m-äi" }, null, out _));
    }

    private void Fill(int records = Records)
    {
        var series = Drawer.IsPostgres
            ? $"SELECT i FROM generate_series(1, {records}) AS s(i)"
            : $"WITH RECURSIVE s(i) AS (SELECT 1 UNION ALL SELECT i + 1 FROM s WHERE i < {records}) SELECT i FROM s";
        var text = Drawer.IsPostgres ? "::text" : "";
        Drawer.Change(
            $"""
            INSERT INTO record_row (entry_index, record, machine, tasks, day, filed_at, amends, newest, state, record_hash)
            SELECT i * {EntriesApart}, 'J-' || i{text}, 'M-' || (i % 1000){text}, 'height-check', 20000, 0, 0, 1, 'signed-off', 'sha256:0' FROM ({series}) AS n;
            INSERT INTO unit_row (entry_index, ordinal, unit, disposition)
            SELECT i * {EntriesApart}, 0, 'U-' || (i % 1000){text}, 'release' FROM ({series}) AS n;
            ANALYZE
            """
        );
    }

    private string Plan(LedgerFolder folder, RecordFilter filter) =>
        ((SqlLedgerStore)folder.Store).OnConnection(connection =>
            string.Join(
                '\n',
                new SqlQuestion(new RowPaging(), null)
                    .Of(filter)
                    .Page(
                        connection,
                        $"EXPLAIN {(Drawer.IsPostgres ? "" : "QUERY PLAN ")}SELECT {SqlHeldRows.RecordColumns} FROM record_row r",
                        row => row.GetString(Drawer.IsPostgres ? 0 : 3),
                        _ => default
                    )
                    .Rows
            )
        );

    private static List<long> Indexes(
        LedgerFolder folder,
        RecordFilter filter,
        RowPlace? beyond,
        out RowPlace? next
    )
    {
        var page = Page(folder, filter, new RowPaging { Beyond = beyond, Most = 51 });
        next = page.Next;
        return [.. page.Rows];
    }

    private static List<long> Oldest(LedgerFolder folder, RecordFilter filter)
    {
        var all = new List<long>();
        RowPlace? beyond = null;
        do
        {
            var page = Page(
                folder,
                filter,
                new RowPaging
                {
                    Beyond = beyond,
                    Most = 2,
                    OldestFirst = true,
                }
            );
            all.AddRange(page.Rows);
            beyond = page.Next;
        } while (beyond is not null);

        return all;
    }

    // Without the digests, which these rows do not have.
    private static RowPage<long> Page(LedgerFolder folder, RecordFilter filter, RowPaging paging) =>
        ((SqlLedgerStore)folder.Store).OnConnection(connection =>
            new SqlQuestion(paging, null)
                .Of(filter)
                .Page(
                    connection,
                    $"SELECT {SqlHeldRows.RecordColumns} FROM record_row r",
                    row => row.Number(0),
                    index => new RowPlace(index, 0)
                )
        );
}
