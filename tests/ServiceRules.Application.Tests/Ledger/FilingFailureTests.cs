using ServiceRules.Application.Ledger;

namespace ServiceRules.Application.Tests.Ledger;

public sealed class FilingFailureTests
{
    [Fact]
    public void File_EachCallOfTheStoreFailingInTurn_LeavesNothingAndTheNextFilingIsWhole()
    {
        for (var failing = 1; ; failing++)
        {
            using var desk = new Desk();
            desk.File(Desk.Judged(id: "J-1"));
            var before = desk.Store.Copy();
            var store = new FailingLedger(desk.Store, failing);
            var ledger = Assert
                .IsType<LedgerOpening.Opened>(OpenLedger.Open(store, desk.Store, desk.Signer, desk))
                .Ledger;
            var filing = new FileRecord(ledger);
            var outcome = Record.Exception(() => filing.File(Desk.Judged(id: "J-2"), "tech-02"));
            if (!store.HasFailed)
            {
                // Every call was made to fail once; keeping four contents, two entries and a head takes more than eight.
                Assert.True(failing > 8, $"only {failing} calls were met");
                return;
            }

            Assert.Equal(StoreTrouble.Full, Assert.IsType<LedgerStoreException>(outcome).Trouble);
            Assert.Equal(before.Stored, desk.Store.Stored);
            Assert.Equal(before.Kept.Keys, desk.Store.Kept.Keys);
            Assert.Equal(before.Notes, desk.Store.Notes);
            Assert.Equal(before.Notes, desk.Store.Outside);

            var again = Assert.IsType<FilingOutcome.Filed>(filing.File(Desk.Judged(id: "J-2"), "tech-02"));
            Assert.Equal(5, again.Head.Size);
            Assert.Empty(desk.Verify().Faults);
        }
    }
}
