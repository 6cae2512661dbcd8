using System.Text;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Submitting;
using ServiceRules.Application.Tests.Filed;

namespace ServiceRules.Application.Tests.Submitting;

/// <summary>Records that are submitted one by one, and bear on each other.</summary>
public sealed class AmongStoredTests
{
    private static readonly AssessRecord Judging = new(RecordFiles.Rules.Book, RecordFiles.Rules.Site!);

    // The hands of J-1 are in the units from 08:10 to 08:30.
    private static byte[] Start(string clock = "08:20", string id = "J-1-start") =>
        Encoding.UTF8.GetBytes(
            $$"""
            { "format": "service-record/1", "id": "{{id}}", "date": "2026-04-13", "machine": { "id": "M-02" },
              "tasks": ["daily-check"], "people": [{ "id": "tech-04", "role": "performs" }],
              "units": [{ "id": "U-02-1", "sheet": "reel-125-9-510", "position": 1, "entries": [] }],
              "timeline": [{ "event": "machine_started", "at": "2026-04-13T{{clock}}:00+01:00", "by": "tech-04" }],
              "signOff": { "by": "tech-04", "at": "2026-04-13T09:30:00+01:00" } }
            """
        );

    private static byte[] Elsewhere(string id) =>
        SubmissionDesk.Job("J-1", job => (job["id"], job["machine"]!["id"]) = (id, "M-01"));

    private static async Task<StoredSubmission> StoredAsync(SubmissionDesk desk, byte[] record) =>
        Assert.IsType<SubmissionOutcome.Stored>(await desk.SubmitAsync(record)).Submission;

    private static string[] Entries(SubmissionDesk desk, string id) =>
        [
            .. EntryReading
                .About(desk.Store, id)
                .Select(entry => $"{entry.Entry.Kind}{(entry.Entry.Reason is null ? "" : " again")}"),
        ];

    [Fact]
    public async Task Submit_StartOverTheHandsOfAStoredJob_JudgesThatJobAgainAndKeepsWhatWasFiled()
    {
        await using var desk = new SubmissionDesk();
        var first = await StoredAsync(desk, SubmissionDesk.Job("J-1"));
        Assert.Equal("release", desk.Store.MemoryRows.Versions("J-1")[0].Disposition);

        var start = await StoredAsync(desk, Start());

        var turned = Assert.Single(start.Turned);
        Assert.Equal("J-1", turned.Entry.Entry.Subject);
        Assert.Equal("judged again in the light of J-1-start", turned.Entry.Entry.Reason);
        Assert.Contains(turned.Changes, change => change is { Subject: "job", Rule: null, New: "stop" });
        Assert.Contains(turned.Changes, change => change is { Rule: not null, New: "not met" });
        Assert.Equal(["Record", "Assessment", "Assessment again"], Entries(desk, "J-1"));
        var row = Assert.Single(desk.Store.MemoryRows.Versions("J-1"));
        Assert.Equal(
            ("stop", turned.Entry.Index, turned.Entry.Entry.Content),
            (row.Disposition, row.AssessmentIndex, row.AssessmentHash)
        );
        Assert.NotNull(desk.Store.Sound(first.Assessment.Entry.Content));
        Assert.Empty(desk.Verify().Faults);
    }

    /// <summary>Whichever is submitted last, each stands as it is judged with all of them given together.</summary>
    [Theory]
    [InlineData(0, 1, 2)]
    [InlineData(0, 2, 1)]
    [InlineData(1, 0, 2)]
    [InlineData(1, 2, 0)]
    [InlineData(2, 0, 1)]
    [InlineData(2, 1, 0)]
    public async Task Submit_InWhateverOrder_ComesToWhatAllTogetherComeTo(params int[] order)
    {
        byte[][] records = [SubmissionDesk.Job("J-1"), Start(), Elsewhere("J-1-other")];
        await using var desk = new SubmissionDesk();
        foreach (var at in order)
        {
            await StoredAsync(desk, records[at]);
        }

        var together = Judging.Beside(records.Select(record => new ReadOnlyMemory<byte>(record)));
        foreach (var record in records)
        {
            var expected = Assert.IsType<AssessOutcome.Judged>(together.Assess(record)).Assessed.Assessment;
            var row = Assert.Single(desk.Store.MemoryRows.Versions(expected.Record.Text));
            var stands = FiledAssessed.Read(desk.Store, row, _ => null)!.Assessment;

            Assert.Empty(VerdictComparison.Between(expected, stands));
        }
    }

    [Fact]
    public async Task Judge_RecordThatStoredOnesBearOn_ComesToWhatSubmittingComesTo()
    {
        await using var desk = new SubmissionDesk();
        await StoredAsync(desk, Start());

        var judged = Assert.IsType<AssessOutcome.Judged>(desk.Judge(SubmissionDesk.Job("J-1"))).Assessed;
        var stored = await StoredAsync(desk, SubmissionDesk.Job("J-1"));

        Assert.Equal(judged.Evidence.Assessment.Bytes.ToArray(), stored.AssessmentBytes!.Value.ToArray());
        Assert.Equal("J-1-start", Assert.Single(judged.Context.OtherRecords).Record.Text);
        Assert.Equal("J-1-start", Assert.Single(stored.Others!.Records).Record.Text);
        Assert.Equal("stop", desk.Store.MemoryRows.Versions("J-1")[0].Disposition);
    }

    [Fact]
    public async Task Submit_AmendmentThatTakesTheStartAway_TurnsTheJobBack()
    {
        await using var desk = new SubmissionDesk();
        await StoredAsync(desk, SubmissionDesk.Job("J-1"));
        await StoredAsync(desk, Start());

        var amended = Assert.IsType<SubmissionOutcome.Amended>(
            await desk.SubmitAsync(Start("09:20"), null, new Correction("lead-01", "read the wrong clock"))
        );

        Assert.Equal("J-1", Assert.Single(amended.Submission.Turned).Entry.Entry.Subject);
        Assert.Equal("release", desk.Store.MemoryRows.Versions("J-1")[0].Disposition);
        Assert.Equal(["Record", "Assessment", "Assessment again", "Assessment again"], Entries(desk, "J-1"));
        Assert.Empty(desk.Verify().Faults);
    }

    [Fact]
    public async Task Submit_SameAgainAfterOthersWereFiled_AddsNothing()
    {
        await using var desk = new SubmissionDesk();
        await StoredAsync(desk, SubmissionDesk.Job("J-1"));
        await StoredAsync(desk, Start());
        var size = desk.Store.Head!.Size;

        var job = Assert.IsType<SubmissionOutcome.Stood>(await desk.SubmitAsync(SubmissionDesk.Job("J-1")));
        Assert.IsType<SubmissionOutcome.Stood>(await desk.SubmitAsync(Start()));

        Assert.Equal(size, desk.Store.Head!.Size);
        Assert.Equal(
            desk.Store.MemoryRows.Versions("J-1")[0].AssessmentIndex,
            job.Submission.Assessment.Index
        );
    }

    [Fact]
    public async Task Submit_SameKeyAgain_TellsTheSameTurns()
    {
        await using var desk = new SubmissionDesk();
        await StoredAsync(desk, SubmissionDesk.Job("J-1"));
        var first = Assert.IsType<SubmissionOutcome.Stored>(await desk.SubmitAsync(Start(), "one"));
        await StoredAsync(desk, Elsewhere("J-1-other"));

        var again = Assert.IsType<SubmissionOutcome.Stored>(await desk.SubmitAsync(Start(), "one"));

        Assert.True(again.Submission.IsReplay);
        var (was, told) = (Assert.Single(first.Submission.Turned), Assert.Single(again.Submission.Turned));
        Assert.Equal(was.Entry.Index, told.Entry.Index);
    }

    /// <summary>Two that wait for the same transaction were both judged before either stood.</summary>
    [Fact]
    public async Task Submit_TwoAtOnceThatBearOnEachOther_KnowEachOther()
    {
        await using var desk = new SubmissionDesk();
        var shut = desk.Store.Shut();
        var first = desk.SubmitAsync(SubmissionDesk.Job("J-9"));
        await GroupFilingTests.WaitUntil(() => desk.Store.IsWaitedFor);
        var two = new[] { desk.SubmitAsync(SubmissionDesk.Job("J-1")), desk.SubmitAsync(Start()) };
        await GroupFilingTests.WaitUntil(() => desk.Filing.Count == 2);

        shut.Open();
        await Task.WhenAll([first, .. two]);

        Assert.Equal("stop", desk.Store.MemoryRows.Versions("J-1")[0].Disposition);
    }

    /// <summary>A lock that was left hanging is looked for however long ago that was.</summary>
    [Fact]
    public async Task Judge_LockLeftHangingElsewhereMonthsBefore_IsTakenIntoAccount()
    {
        await using var desk = new SubmissionDesk();
        await StoredAsync(
            desk,
            Encoding.UTF8.GetBytes(
                """
                { "format": "service-record/1", "id": "J-old", "date": "2025-11-03", "machine": { "id": "M-01" },
                  "tasks": ["daily-check"], "people": [{ "id": "tech-04", "role": "performs" }],
                  "units": [{ "id": "U-02-1", "sheet": "reel-125-9-510", "position": 1, "entries": [] }],
                  "timeline": [{ "event": "lock_applied", "at": "2025-11-03T08:00:00+00:00", "by": "tech-04",
                                 "source": "engine_start", "lock": "L-21" }] }
                """
            )
        );

        var judged = Assert.IsType<AssessOutcome.Judged>(desk.Judge(SubmissionDesk.Job("J-1"))).Assessed;

        Assert.Equal("M-01", Assert.Single(judged.Context.Elsewhere).Machine.Text);
    }
}
