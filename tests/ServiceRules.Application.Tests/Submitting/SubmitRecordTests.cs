using ServiceRules.Application.Ledger;
using ServiceRules.Application.Submitting;
using ServiceRules.Formats.Ledger;

namespace ServiceRules.Application.Tests.Submitting;

public sealed class SubmitRecordTests
{
    [Fact]
    public async Task Submit_NewRecord_StoresEntriesRowsAndAnswerTogether()
    {
        await using var desk = new SubmissionDesk();

        var stored = Assert.IsType<SubmissionOutcome.Stored>(
            await desk.SubmitAsync(SubmissionDesk.Job("J-1"), "one")
        );

        Assert.Equal(EntryKind.Record, stored.Submission.Record.Entry.Kind);
        Assert.Equal(EntryKind.Assessment, stored.Submission.Assessment.Entry.Kind);
        var rows = Assert.Single(desk.Store.MemoryRows.All);
        Assert.Equal(stored.Submission.Record.Index, rows.Record.Index);
        Assert.Equal(stored.Submission.Assessment.Index, rows.Record.AssessmentIndex);
        Assert.Equal("signed-off", rows.Record.State);
        Assert.NotEmpty(rows.Units);
        Assert.NotEmpty(rows.Findings);
        Assert.DoesNotContain(rows.Findings, finding => finding.Verdict == "not-applicable");
        Assert.Equal(1, desk.Store.MemoryRows.Answers);
        Assert.Equal(desk.Store.Head!.Size, desk.Store.MemoryRows.Covered);
        Assert.Empty(desk.Verify().Faults);
    }

    [Fact]
    public async Task Submit_SameRecordAgain_StandsAlreadyAndAddsNothing()
    {
        await using var desk = new SubmissionDesk();
        var first = Assert.IsType<SubmissionOutcome.Stored>(
            await desk.SubmitAsync(SubmissionDesk.Job("J-1"))
        );
        var size = desk.Store.Head!.Size;

        var again = Assert.IsType<SubmissionOutcome.Stood>(await desk.SubmitAsync(SubmissionDesk.Job("J-1")));

        Assert.Equal(first.Submission.Record.Index, again.Submission.Record.Index);
        Assert.Equal(size, desk.Store.Head!.Size);
    }

    [Fact]
    public async Task Submit_SameKeyAgain_GivesTheFirstAnswerAgain()
    {
        await using var desk = new SubmissionDesk();
        var job = SubmissionDesk.Job("J-1");
        var first = Assert.IsType<SubmissionOutcome.Stored>(await desk.SubmitAsync(job, "one"));

        var again = Assert.IsType<SubmissionOutcome.Stored>(await desk.SubmitAsync(job, "one"));

        Assert.False(first.Submission.IsReplay);
        Assert.True(again.Submission.IsReplay);
        Assert.Equal(first.Submission.Record.Bytes.ToArray(), again.Submission.Record.Bytes.ToArray());
        Assert.Equal(first.Submission.Assessment.Index, again.Submission.Assessment.Index);
        Assert.Equal(
            first.Submission.AssessmentBytes!.Value.ToArray(),
            again.Submission.AssessmentBytes!.Value.ToArray()
        );
    }

    [Fact]
    public async Task Submit_SameKeyInAnotherSpelling_IsTheSameBody()
    {
        await using var desk = new SubmissionDesk();
        var job = SubmissionDesk.Job("J-1");
        await desk.SubmitAsync(job, "one");

        var again = await desk.SubmitAsync([.. "  "u8, .. job, .. "\n"u8], "one");

        Assert.True(Assert.IsType<SubmissionOutcome.Stored>(again).Submission.IsReplay);
    }

    [Fact]
    public async Task Submit_SameKeyOtherBody_IsToldAndNothingIsFiled()
    {
        await using var desk = new SubmissionDesk();
        await desk.SubmitAsync(SubmissionDesk.Job("J-1"), "one");
        var size = desk.Store.Head!.Size;

        var other = await desk.SubmitAsync(SubmissionDesk.Job("J-2"), "one");

        Assert.Equal("one", Assert.IsType<SubmissionOutcome.OtherBody>(other).Key.Text);
        Assert.Equal(size, desk.Store.Head!.Size);
    }

    [Fact]
    public async Task Submit_OtherContentUnderTheSameIdentity_IsAConflictWithWhatDiffers()
    {
        await using var desk = new SubmissionDesk();
        await desk.SubmitAsync(SubmissionDesk.Job("J-1"));

        var conflict = Assert.IsType<SubmissionOutcome.Conflict>(
            await desk.SubmitAsync(SubmissionDesk.Job("J-1", SubmissionDesk.Mend), "one")
        );

        Assert.Equal("/units/0/entries/0/value", Assert.Single(conflict.Refusal.Differences).Pointer);
        Assert.Equal(EntryKind.Record, conflict.Refusal.Standing!.Entry.Kind);
        Assert.Equal(0, desk.Store.MemoryRows.Answers);
    }

    [Fact]
    public async Task Submit_OpenJobFurtherOn_IsAFurtherVersionAndTheEarlierOneIsNoLongerTheNewest()
    {
        await using var desk = new SubmissionDesk();
        await desk.SubmitAsync(SubmissionDesk.Job("J-1", SubmissionDesk.LeaveOpen));

        Assert.IsType<SubmissionOutcome.Progressed>(await desk.SubmitAsync(SubmissionDesk.Job("J-1")));

        Assert.Equal(
            [("open", false), ("signed-off", true)],
            desk.Store.MemoryRows.Versions("J-1").Select(row => (row.State, row.IsNewest))
        );
    }

    [Fact]
    public async Task Submit_Correction_IsAnAmendmentAndWithoutARecordDeclined()
    {
        await using var desk = new SubmissionDesk();
        var correction = new Correction("lead-01", "read the wrong line");
        Assert.IsType<SubmissionOutcome.Declined>(
            await desk.SubmitAsync(SubmissionDesk.Job("J-1"), null, correction)
        );
        await desk.SubmitAsync(SubmissionDesk.Job("J-1"));

        var amended = await desk.SubmitAsync(
            SubmissionDesk.Job("J-1", SubmissionDesk.Mend),
            "one",
            correction
        );

        Assert.Equal(
            "read the wrong line",
            Assert.IsType<SubmissionOutcome.Amended>(amended).Submission.Record.Entry.Reason
        );
        Assert.True(desk.Store.MemoryRows.Versions("J-1")[^1].IsAmendment);
    }

    [Theory]
    [InlineData("{")]
    [InlineData("{}")]
    [InlineData("\"\\ud800\"")]
    public async Task Submit_Unreadable_IsRefusedWithItsProblems(string body)
    {
        await using var desk = new SubmissionDesk();

        var refused = Assert.IsType<SubmissionOutcome.Refused>(
            await desk.SubmitAsync(System.Text.Encoding.UTF8.GetBytes(body), "one")
        );

        Assert.NotEmpty(refused.Problems.Told);
        Assert.Null(desk.Store.Head);
    }

    [Fact]
    public async Task Submit_FiftyAtOnceTheSame_MakeOneRecord()
    {
        await using var desk = new SubmissionDesk();
        var job = SubmissionDesk.Job("J-1");

        var outcomes = await Task.WhenAll(
            Enumerable.Range(0, 50).Select(at => Task.Run(() => desk.SubmitAsync(job, $"key-{at % 7}")))
        );

        Assert.Single(
            outcomes,
            outcome => outcome is SubmissionOutcome.Stored { Submission.IsReplay: false }
        );
        Assert.All(
            outcomes,
            outcome => Assert.True(outcome is SubmissionOutcome.Stored or SubmissionOutcome.Stood)
        );
        Assert.Single(desk.Store.MemoryRows.All);
        Assert.Equal(3, desk.Store.Head!.Size);
        Assert.Empty(desk.Verify().Faults);
    }
}
