using System.Collections.Immutable;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Rows;
using ServiceRules.Application.Submitting;

namespace ServiceRules.Storage.Tests.Submitting;

/// <summary>Rows that were changed behind the product's back: seen when they are told, at a start and by verifying.</summary>
public abstract class HeldRowsContract : DrawerContract
{
    private protected HeldRowsContract(Func<Drawer> drawer)
        : base(drawer) { }

    public static TheoryData<string, string, string> ToldByLists =>
        new()
        {
            {
                "UPDATE record_row SET disposition = 'clear' WHERE entry_index = {0}",
                "records",
                "column `disposition`"
            },
            { "UPDATE record_row SET newest = 0 WHERE entry_index = {0}", "records", "column `newest`" },
            {
                "UPDATE record_row SET machine = 'M-99' WHERE entry_index = {0}",
                "records",
                "column `machine`"
            },
            {
                "UPDATE record_row SET site = 'elsewhere' WHERE entry_index = {0}",
                "records",
                "column `site`"
            },
            {
                "UPDATE record_row SET day = 9000000000000000000 WHERE entry_index = {0}",
                "records",
                "what no row may"
            },
            {
                "UPDATE record_row SET filed_at = 9000000000000000000 WHERE entry_index = {0}",
                "records",
                "what no row may"
            },
            {
                "UPDATE record_row SET digest = NULL WHERE entry_index = {0}",
                "records",
                "digest beside them"
            },
            {
                "UPDATE unit_row SET disposition = 'clear' WHERE entry_index = {0} AND ordinal = 0",
                "units",
                "row 0, column `disposition`"
            },
            {
                "UPDATE unit_row SET ordinal = 77 WHERE entry_index = {0} AND ordinal = 0",
                "units",
                "row 77: it is of nothing"
            },
            {
                "UPDATE finding_row SET verdict = 'unheard' WHERE entry_index = {0}",
                "findings",
                "column `verdict`"
            },
            {
                "DELETE FROM finding_row WHERE entry_index = {0} AND ordinal = (SELECT MIN(ordinal) FROM finding_row WHERE entry_index = {0})",
                "findings",
                "it is missing"
            },
            {
                "UPDATE record_row SET findings_digest = digest WHERE entry_index = {0}",
                "findings",
                "digest beside them"
            },
        };

    [SkippableTheory]
    [MemberData(nameof(ToldByLists))]
    public async Task List_OfRowsThatWereChanged_FailsAndNamesThePlaceUntilTheyAreMadeAnew(
        string sql,
        string list,
        string named
    )
    {
        ArgumentNullException.ThrowIfNull(sql);
        await using var counter = new Counter(Drawer);
        await counter.SubmitAsync(Jobs.Job("J-1"));
        await counter.SubmitAsync(Jobs.Job("J-2"));
        var before = counter.All();
        var index = before.Records[0].Index;

        Drawer.Change(sql.Replace("{0}", $"{index}", StringComparison.Ordinal));

        var refused = Assert.Throws<LedgerStoreException>(() => Ask(counter, list));
        Assert.Equal(StoreTrouble.Rows, refused.Trouble);
        Assert.Contains($"entry {index}", refused.Place ?? $"entry {index}", StringComparison.Ordinal);
        Assert.NotEmpty(new CheckHeldRows(counter.Ledger).Check());
        var faults = Drawer.Verify().Faults;
        Assert.All(faults, fault => Assert.Equal(LedgerFaultCode.Rows, fault.Code));
        Assert.Contains(faults, fault => fault.ToString().Contains(named, StringComparison.Ordinal));
        Assert.Contains(faults, fault => fault.Where.EndsWith($"entry {index}", StringComparison.Ordinal));

        var rows = new RebuildRows(counter.Ledger);
        var rebuilt = rows.Rebuild();
        Assert.Empty(rebuilt.Lost);
        Assert.Equal(counter.Ledger.Head!.Size, rebuilt.Entries);
        AssertSame(before, counter.All());
        AssertHeld(counter);
    }

    [SkippableTheory]
    [InlineData("UPDATE unit_row SET unit = 'U-99' WHERE entry_index = {0}")]
    [InlineData("DELETE FROM unit_row WHERE entry_index = {0}")]
    [InlineData("UPDATE record_row SET newest = 0 WHERE entry_index = {0}")]
    [InlineData("UPDATE record_row SET day = 1 WHERE entry_index = {0}")]
    [InlineData("UPDATE record_row SET site = 'elsewhere' WHERE entry_index = {0}")]
    public async Task LatestUnits_OfAVisitThatIsPassedOver_AreNotThoseOfTheVisitBefore(string sql)
    {
        ArgumentNullException.ThrowIfNull(sql);
        await using var counter = new Counter(Drawer);
        await counter.SubmitAsync(Jobs.Job("J-1"));
        await counter.SubmitAsync(Jobs.Job("J-2"));
        var latest = Latest(counter);
        Assert.NotEmpty(latest);
        Assert.All(latest, row => Assert.Equal("J-2", row.Of.Record));

        Drawer.Change(sql.Replace("{0}", $"{latest[0].Of.Index}", StringComparison.Ordinal));

        var refused = Assert.Throws<LedgerStoreException>(() => Latest(counter));
        Assert.Equal((StoreTrouble.Rows, $"entry {latest[0].Of.Index}"), (refused.Trouble, refused.Place));
    }

    [SkippableTheory]
    [InlineData("UPDATE shown_row SET key = 'L-99' WHERE what = 'lock'", "shown_row")]
    [InlineData("DELETE FROM shown_row WHERE what = 'person'", "is missing")]
    [InlineData(
        "DELETE FROM record_row WHERE record = 'J-2'",
        "what no row may, or are without their version's"
    )]
    [InlineData(
        "DELETE FROM finding_row; DELETE FROM unit_row; DELETE FROM shown_row; DELETE FROM record_row",
        "its row is missing"
    )]
    [InlineData(
        "INSERT INTO unit_row (entry_index, ordinal, unit, disposition) VALUES (0, 0, 'U-9', 'clear')",
        "no version"
    )]
    [InlineData(
        "INSERT INTO unit_row (entry_index, ordinal, unit, disposition) VALUES (900, 0, 'U-9', 'clear')",
        "no version"
    )]
    [InlineData("UPDATE row_cover SET size = 900", "900 entries")]
    public async Task Rows_ThatNoListWouldTell_AreNamedAtAStartAndByVerifying(string sql, string named)
    {
        await using var counter = new Counter(Drawer);
        await counter.SubmitAsync(Jobs.Start());
        await counter.SubmitAsync(Jobs.Job("J-2"));
        var before = counter.All();

        Drawer.Change(sql);

        Assert.NotEmpty(new CheckHeldRows(counter.Ledger).Check());
        Assert.Contains(
            Drawer.Verify().Faults,
            fault => fault.ToString().Contains(named, StringComparison.Ordinal)
        );
        _ = new RebuildRows(counter.Ledger).Rebuild();
        AssertSame(before, counter.All());
        AssertHeld(counter);
    }

    [SkippableFact]
    public async Task Rows_OfWhatWasCorrectedOvertakenAndForgotten_AreHeld()
    {
        await using var counter = new Counter(Drawer);
        await counter.SubmitAsync(Jobs.Job("J-1", Jobs.LeaveOpen));
        await counter.SubmitAsync(Jobs.Job("J-1"));
        await counter.SubmitAsync(Jobs.Start());
        await counter.SubmitAsync(Jobs.Job("J-2"));
        await counter.SubmitAsync(Jobs.Job("J-2", Jobs.Mend), null, new Correction("lead-01", "misread"));
        await counter.SubmitAsync(Jobs.Job("J-2"), null, new Correction("lead-01", "it was right"));
        AssertHeld(counter);

        Assert.IsType<FilingOutcome.Filed>(
            new ForgetPerson(counter.Ledger).Forget("tech-04", new Correction("officer-01", "asked"), true)
        );

        AssertHeld(counter);
    }

    [SkippableFact]
    public async Task Rows_FromBeforeThereWereDigests_AreMadeAtTheNextOpening()
    {
        (List<RecordRow> Records, List<UnitRow> Units, List<FindingRow> Findings) before;
        await using (var counter = new Counter(Drawer))
        {
            await counter.SubmitAsync(Jobs.Job("J-1"));
            await counter.SubmitAsync(Jobs.Job("J-2"));
            before = counter.All();
        }

        Drawer.Change(
            """
            UPDATE record_row SET digest = NULL, overtaken_digest = NULL, units_digest = NULL, findings_digest = NULL, shown_digest = NULL;
            UPDATE row_cover SET size = 0
            """
        );

        var verified = Drawer.Verify();
        Assert.Empty(verified.Faults);
        Assert.Contains(
            verified.Remarks,
            remark => remark.Contains("first 0 entries", StringComparison.Ordinal)
        );
        await using var again = new Counter(Drawer);
        AssertSame(before, again.All());
        AssertHeld(again);
    }

    [SkippableFact]
    public async Task Submission_OfARecordWhoseRowsWereChanged_IsNotStored()
    {
        await using var counter = new Counter(Drawer);
        await counter.SubmitAsync(Jobs.Job("J-1"));
        Drawer.Change("UPDATE record_row SET disposition = 'clear'");

        var outcome = await counter.SubmitAsync(
            Jobs.Job("J-1", Jobs.Mend),
            null,
            new Correction("lead-01", "misread")
        );

        Assert.Equal(StoreTrouble.Rows, Assert.IsType<SubmissionOutcome.Trouble>(outcome).What);
    }

    private static void Ask(Counter counter, string list)
    {
        _ = list switch
        {
            "records" => counter
                .Rows.Records(new RecordFilter { AllVersions = true }, new RowPaging())
                .Rows.Length,
            "units" => counter.Rows.Units(new UnitFilter(), new RowPaging()).Rows.Length,
            _ => counter.Rows.Findings(new FindingFilter(), new RowPaging()).Rows.Length,
        };
    }

    private static ImmutableArray<UnitRow> Latest(Counter counter) =>
        counter.Rows.Units(new UnitFilter { LatestOnly = true }, new RowPaging()).Rows;

    private void AssertHeld(Counter counter)
    {
        Assert.Empty(new CheckHeldRows(counter.Ledger).Check());
        Assert.Empty(new RebuildRows(counter.Ledger).Check());
        Assert.Empty(Drawer.Verify().Faults);
    }

    private static void AssertSame(
        (List<RecordRow> Records, List<UnitRow> Units, List<FindingRow> Findings) before,
        (List<RecordRow> Records, List<UnitRow> Units, List<FindingRow> Findings) after
    )
    {
        Assert.Equal(before.Records, after.Records);
        Assert.Equal(before.Units, after.Units);
        Assert.Equal(before.Findings, after.Findings);
    }
}
