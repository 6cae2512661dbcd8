using ServiceRules.Application.Ledger;
using ServiceRules.Application.Tests.Submitting;

namespace ServiceRules.Application.Tests.Ledger;

public sealed class OpenLedgerTests
{
    [Fact]
    public void Proofs_VersionThatAnotherInstanceFiledSince_IsLeftToItsHead()
    {
        using var desk = new Desk();
        var (one, other) = (desk.Open(), desk.Open());
        var filed = Filed(new FileRecord(one).File(Desk.Judged(), null));
        var correction = new Correction("lead-01", "read the wrong line");
        var amended = Filed(new FileRecord(other).Amend(Desk.Judged(SubmissionDesk.Mend), correction));

        Assert.Null(one.Proofs(filed).Newer);
        Assert.Throws<ArgumentOutOfRangeException>(() => one.ProveWithEntry(amended.Entries[^1].Entry));

        Assert.NotNull(other.Proofs(filed).Newer);
        Assert.NotEmpty(other.ProveWithEntry(amended.Entries[^1].Entry));
    }

    [Fact]
    public void Open_RowsThatDoNotCoverTheLog_AreBroughtUp()
    {
        using var desk = new Desk();
        desk.File(Desk.Judged());
        var before = desk.Store.MemoryRows.All;
        desk.Store.MemoryRows.Clear(0, long.MaxValue);
        desk.Store.MemoryRows.Cover(0);

        _ = desk.Open();

        Assert.Equal(desk.Store.Head!.Size, desk.Store.MemoryRows.Covered);
        Assert.Equal(
            before.Select(rows => rows.Record),
            desk.Store.MemoryRows.All.Select(rows => rows.Record)
        );
    }

    [Fact]
    public void Open_RowsThatCannotBeBroughtUp_IsARemark()
    {
        using var desk = new Desk();
        desk.File(Desk.Judged());
        desk.Store.MemoryRows.Cover(0);

        var opened = Assert.IsType<LedgerOpening.Opened>(
            OpenLedger.Open(new FailingLedger(desk.Store, 1, forGood: true), desk.Store, desk.Signer, desk)
        );

        Assert.Contains("lists and searches", Assert.Single(opened.Remarks), StringComparison.Ordinal);
    }

    private static FilingOutcome.Filed Filed(FilingOutcome outcome) =>
        Assert.IsType<FilingOutcome.Filed>(outcome);
}
