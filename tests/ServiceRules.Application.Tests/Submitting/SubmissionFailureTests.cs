using ServiceRules.Application.Ledger;
using ServiceRules.Application.Submitting;
using ServiceRules.Application.Tests.Ledger;

namespace ServiceRules.Application.Tests.Submitting;

public sealed class SubmissionFailureTests
{
    [Theory]
    [InlineData(false, false)]
    [InlineData(false, true)]
    [InlineData(true, false)]
    [InlineData(true, true)]
    public async Task Submit_EachCallOfTheStoreFailingInTurn_LeavesAllOrNothing(bool forGood, bool ends)
    {
        var failing = 1;
        for (; ; failing++)
        {
            FailingLedger? store = null;
            await using var desk = new SubmissionDesk(inner =>
                store = new FailingLedger(inner, failing, forGood) { EndsTransaction = ends }
            );
            var job = SubmissionDesk.Job("J-1");

            var outcome = await desk.SubmitAsync(job, "one");

            if (!store!.HasFailed)
            {
                break;
            }

            Assert.Equal(StoreTrouble.Full, Assert.IsType<SubmissionOutcome.Trouble>(outcome).What);
            Assert.Empty(desk.Store.Stored);
            Assert.Empty(desk.Store.Kept);
            Assert.Empty(desk.Store.MemoryRows.All);
            Assert.Empty(desk.Store.Outside);
            Assert.Equal((0, 0), (desk.Store.MemoryRows.Answers, desk.Store.MemoryRows.Covered));

            store.Mend();
            Assert.IsType<SubmissionOutcome.Stored>(await desk.SubmitAsync(job, "one"));
            Assert.Empty(desk.Verify().Faults);
        }

        // Four contents, three entries, a pseudonym, rows, their cover, the answer and the head.
        Assert.InRange(failing, 14, 60);
    }

    [Fact]
    public async Task Submit_CheckpointThatCannotBeKept_IsTroubleAndAnsweredOnceItIs()
    {
        await using var desk = new SubmissionDesk();
        desk.Store.IsShelfShut = true;
        var job = SubmissionDesk.Job("J-1");

        var first = await desk.SubmitAsync(job, "one");
        var second = await desk.SubmitAsync(job, "one");

        Assert.Equal(StoreTrouble.NotShelved, Assert.IsType<SubmissionOutcome.Trouble>(first).What);
        Assert.Equal(StoreTrouble.NotShelved, Assert.IsType<SubmissionOutcome.Trouble>(second).What);
        desk.Store.IsShelfShut = false;
        Assert.IsType<SubmissionOutcome.Stored>(await desk.SubmitAsync(job, "one"));
        Assert.Equal([desk.Store.Head!.Note], desk.Store.Outside);
    }
}
