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

    [Fact]
    public async Task Submit_SameKeyByAnotherPerson_IsAnotherBody()
    {
        await using var desk = new SubmissionDesk();
        await desk.SubmitAsync(SubmissionDesk.Job("J-1"));
        var mended = SubmissionDesk.Job("J-1", SubmissionDesk.Mend);
        await desk.SubmitAsync(mended, "one", new Correction("lead-01", "read the wrong line"));

        var other = await desk.SubmitAsync(mended, "one", new Correction("lead-02", "read the wrong line"));
        var same = await desk.SubmitAsync(mended, "one", new Correction("lead-01", "read the wrong line"));

        Assert.IsType<SubmissionOutcome.OtherBody>(other);
        Assert.True(Assert.IsType<SubmissionOutcome.Amended>(same).Submission.IsReplay);
    }

    [Fact]
    public void Fingerprint_OfTwoPeople_IsTheSameSinceNoNameIsInIt()
    {
        var body = SubmissionDesk.Job("J-1");
        var (one, other) = (new Correction("lead-01", "why"), new Correction("lead-02", "why"));

        Assert.Equal(
            SubmissionFingerprint.Of(new Submission(body) { Correction = one }),
            SubmissionFingerprint.Of(new Submission(body) { Correction = other })
        );
        Assert.Equal(
            SubmissionFingerprint.Of(new Submission(body) { By = "lead-01" }),
            SubmissionFingerprint.Of(new Submission(body) { By = "lead-02" })
        );
        Assert.NotEqual(
            SubmissionFingerprint.Of(new Submission(body)),
            SubmissionFingerprint.Of(new Submission(body) { By = "lead-02" })
        );
    }

    [Fact]
    public async Task Submit_AnswerThatGoesWhileItWaits_IsJudgedAndStands()
    {
        await using var desk = new SubmissionDesk();
        var job = SubmissionDesk.Job("J-1");
        await desk.SubmitAsync(job, "one");
        var shut = desk.Store.Shut();
        var again = desk.SubmitAsync(job, "one");
        await GroupFilingTests.WaitUntil(() => desk.Store.IsWaitedFor);

        desk.Store.MemoryRows.DropAnswers(desk.Store.MemoryRows.All[0].Record.By!);
        shut.Open();

        Assert.False(Assert.IsType<SubmissionOutcome.Stood>(await again).Submission.IsReplay);
        Assert.Equal(1, desk.Store.MemoryRows.Answers);
    }

    [Theory]
    [InlineData('\0')]
    [InlineData('\ud800')]
    public async Task Submit_PersonWhoseNameNoDatabaseKeeps_IsDeclined(char unfit)
    {
        await using var desk = new SubmissionDesk();
        await desk.SubmitAsync(SubmissionDesk.Job("J-1"));

        var declined = await desk.SubmitAsync(
            SubmissionDesk.Job("J-1", SubmissionDesk.Mend),
            null,
            new Correction($"lead{unfit}-01", "read the wrong line")
        );

        Assert.Contains(
            "the name of a person",
            Assert.IsType<SubmissionOutcome.Declined>(declined).Refusal.What,
            StringComparison.Ordinal
        );
    }

    [Theory]
    [InlineData("")]
    [InlineData("a\nb")]
    [InlineData("a\u0000b")]
    public void Key_ThatIsNone_IsNotTaken(string text)
    {
        Assert.False(SubmissionKey.IsKey(text));
        Assert.Throws<ArgumentException>(() => new SubmissionKey("", text));
    }

    [Fact]
    public void Key_UpToTheMostCharacters_IsTaken()
    {
        var longest = new string('k', SubmissionKey.MostCharacters);

        Assert.Equal(longest, new SubmissionKey("alder", longest).Text);
        Assert.Equal("\U0001F511", new SubmissionKey("", "\U0001F511").Text);
        Assert.Throws<ArgumentException>(() => new SubmissionKey("", longest + "k"));
        Assert.Throws<ArgumentException>(() => new SubmissionKey("a\u0000b", "k"));
        Assert.False(SubmissionKey.IsKey(new string('\udc00', 1)));
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
