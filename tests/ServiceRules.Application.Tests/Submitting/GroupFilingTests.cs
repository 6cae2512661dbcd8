using ServiceRules.Application.Ledger;
using ServiceRules.Application.Submitting;
using ServiceRules.Application.Tests.Ledger;

namespace ServiceRules.Application.Tests.Submitting;

public sealed class GroupFilingTests
{
    [Fact]
    public async Task File_ManyThatWait_ShareOneCheckpoint()
    {
        await using var desk = new SubmissionDesk();
        var shut = desk.Store.Shut();
        var first = desk.SubmitAsync(SubmissionDesk.Job("J-1"));
        await WaitUntil(() => desk.Store.IsWaitedFor);
        var waiting = Enumerable
            .Range(2, 7)
            .Select(at => desk.SubmitAsync(SubmissionDesk.Job($"J-{at}")))
            .ToList();
        await WaitUntil(() => desk.Filing.Count == 7);

        shut.Open();
        var outcomes = await Task.WhenAll([first, .. waiting]);

        Assert.All(outcomes, outcome => Assert.IsType<SubmissionOutcome.Stored>(outcome));
        Assert.InRange(desk.Store.Notes.Count, 1, 2);
        Assert.Equal(desk.Store.Notes, desk.Store.Outside);
        Assert.Equal(8, desk.Store.MemoryRows.All.Count);
        Assert.Empty(desk.Verify().Faults);
    }

    [Fact]
    public void FileTogether_OneThatThrowsInTheMiddle_IsUndoneAlone()
    {
        using var desk = new Desk();
        var ledger = desk.Open();

        var attempts = ledger.FileTogether([
            log => FileRecord.Plan(log, Desk.Judged(id: "J-1"), null, null),
            log =>
            {
                log.Keep(Evidence.ContentHash.Of("left"u8), "left"u8.ToArray());
                throw new InvalidOperationException("a defect");
            },
            log => FileRecord.Plan(log, Desk.Judged(id: "J-1"), null, null),
            log => FileRecord.Plan(log, Desk.Judged(id: "J-2"), null, null),
        ]);

        Assert.IsType<FilingAttempt.Failed>(attempts[1]);
        var filed = new[] { attempts[0], attempts[2], attempts[3] }
            .Select(attempt =>
                Assert.IsType<FilingOutcome.Filed>(Assert.IsType<FilingAttempt.Came>(attempt).Outcome)
            )
            .ToList();
        Assert.Equal([true, false, true], filed.Select(one => one.IsNew));
        Assert.All(filed, one => Assert.Equal(desk.Store.Head, one.Head));
        Assert.Equal([0, 1, 2, 3, 4], desk.Store.Stored.Select(entry => entry.Index));
        Assert.Null(desk.Store.Content(Evidence.ContentHash.Of("left"u8)));
        Assert.Empty(desk.Verify().Faults);
    }

    [Fact]
    public void FileTogether_CheckpointThatCannotBeKept_IsToldToThoseWhoWereFiledAlone()
    {
        using var desk = new Desk();
        var ledger = desk.Open();
        desk.Store.IsShelfShut = true;

        var attempts = ledger.FileTogether([
            log => FileRecord.Plan(log, Desk.Judged(id: "J-1"), null, null),
            _ => new FilingPlan.Refuse(new("no", "another")),
        ]);

        var failed = Assert.IsType<FilingAttempt.Failed>(attempts[0]).Failure;
        Assert.Equal(StoreTrouble.NotShelved, Assert.IsType<LedgerStoreException>(failed).Trouble);
        var refused = Assert.IsType<FilingAttempt.Came>(attempts[1]).Outcome;
        Assert.Equal("no", Assert.IsType<FilingOutcome.Refused>(refused).Refusal.What);
    }

    [Fact]
    public async Task Submit_WhileItStops_IsToldSoAndNotThatManyWait()
    {
        await using var desk = new SubmissionDesk();
        var shut = desk.Store.Shut();
        var first = desk.SubmitAsync(SubmissionDesk.Job("J-0"));
        await WaitUntil(() => desk.Store.IsWaitedFor);
        var stopping = desk.Filing.DisposeAsync();

        var late = await desk.SubmitAsync(SubmissionDesk.Job("J-1"));
        shut.Open();
        await stopping;

        Assert.Contains(
            "stopping",
            Assert.IsType<SubmissionOutcome.Trouble>(late).Message,
            StringComparison.Ordinal
        );
        Assert.IsType<SubmissionOutcome.Stored>(await first);
    }

    [Fact]
    public async Task Submit_MoreThanMayWait_AreToldThatItIsBusy()
    {
        await using var desk = new SubmissionDesk(waitingMost: 2);
        var shut = desk.Store.Shut();
        var first = desk.SubmitAsync(SubmissionDesk.Job("J-0"));
        await WaitUntil(() => desk.Store.IsWaitedFor);
        var waiting = new[] { 1, 2 }.Select(at => desk.SubmitAsync(SubmissionDesk.Job($"J-{at}"))).ToList();

        var outcome = await desk.SubmitAsync(SubmissionDesk.Job("J-3"));

        Assert.Equal(StoreTrouble.Busy, Assert.IsType<SubmissionOutcome.Trouble>(outcome).What);
        shut.Open();
        Assert.All(
            await Task.WhenAll([first, .. waiting]),
            one => Assert.IsType<SubmissionOutcome.Stored>(one)
        );
    }

    [Fact]
    public async Task Dispose_WithSomeWaiting_FilesThemFirst()
    {
        var desk = new SubmissionDesk();
        var shut = desk.Store.Shut();
        var waiting = Enumerable
            .Range(1, 4)
            .Select(at => desk.SubmitAsync(SubmissionDesk.Job($"J-{at}")))
            .ToList();

        var stopping = desk.Filing.DisposeAsync();
        shut.Open();
        await stopping;

        Assert.All(await Task.WhenAll(waiting), one => Assert.IsType<SubmissionOutcome.Stored>(one));
        var late = await desk.SubmitAsync(SubmissionDesk.Job("J-9"));
        Assert.Equal(StoreTrouble.Busy, Assert.IsType<SubmissionOutcome.Trouble>(late).What);
        await desk.DisposeAsync();
    }

    internal static async Task WaitUntil(Func<bool> isSo)
    {
        for (var tries = 0; !isSo() && tries < 1000; tries++)
        {
            await Task.Delay(10);
        }

        Assert.True(isSo());
    }
}
