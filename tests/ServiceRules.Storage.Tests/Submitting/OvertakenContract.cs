using System.Text.Json.Nodes;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Notices;
using ServiceRules.Application.Packs;
using ServiceRules.Application.Submitting;
using ServiceRules.Application.Waiving;
using ServiceRules.Domain.Site;
using ServiceRules.Storage.Tests.Rejudging;

namespace ServiceRules.Storage.Tests.Submitting;

/// <summary>Other rules in force, or another waiver, between the judging of a record and its filing.</summary>
public abstract class OvertakenContract : DrawerContract
{
    private static readonly Waiver Wet = new(
        "height-on-target",
        null,
        new("lead-01"),
        "wet",
        new(2026, 4, 1),
        new(2026, 4, 30)
    );

    private protected OvertakenContract(Func<Drawer> drawer)
        : base(drawer) { }

    [SkippableFact]
    public async Task Record_JudgedWhileOtherRulesCameIntoForce_IsFiledByThoseAlone()
    {
        await using var one = new RejudgedHistory(Drawer);
        await using var other = new RejudgedHistory(Drawer);
        one.BeginWith(RejudgedHistory.Lenient);
        var rules = new AskedRules(one.Counter.Folder.Rules);
        var submitting = Submitting(one, rules);
        rules.OnceAsked = () => other.Activate(RejudgedHistory.Strict);

        var outcome = await submitting.SubmitAsync(new Submission(RejudgedHistory.TooHigh("J-1")));

        Assert.Equal(RejudgedHistory.Strict.Digest, Digest(outcome, "packs"));
        Assert.Equal("hold", one.Of("J-1").Disposition);
        Assert.Equal(1, Assessments(one));
        Assert.Empty(Drawer.Verify().Faults);
    }

    [SkippableFact]
    public async Task Amendment_JudgedWhileOtherRulesCameIntoForce_IsFiledByThoseAlone()
    {
        await using var one = new RejudgedHistory(Drawer);
        one.BeginWith(RejudgedHistory.Strict);
        await one.FileAsync("J-1", isTooHigh: false);
        var rules = new AskedRules(one.Counter.Folder.Rules);
        var submitting = Submitting(one, rules);
        rules.OnceAsked = () => one.Activate(RejudgedHistory.Lenient);

        var outcome = await submitting.SubmitAsync(
            new Submission(RejudgedHistory.TooHigh("J-1"))
            {
                Correction = new Correction("lead-01", "misread"),
                Key = new SubmissionKey("alder", "k-1"),
            }
        );

        var amended = Assert.IsType<SubmissionOutcome.Amended>(outcome);
        Assert.Equal(RejudgedHistory.Lenient.Digest, Digest(amended.Submission, "packs"));
        Assert.Equal("release", one.Of("J-1").Disposition);
    }

    [SkippableFact]
    public async Task Submission_BegunByRulesThatAreInForceNoMore_StoresNothing()
    {
        await using var one = new RejudgedHistory(Drawer);
        one.BeginWith(RejudgedHistory.Lenient);
        var underWay = one.Submitting;
        one.Activate(RejudgedHistory.Strict);
        var size = one.Counter.Ledger.Log.Head!.Size;

        var outcome = await underWay.SubmitAsync(new Submission(RejudgedHistory.TooHigh("J-1")));

        Assert.Equal(StoreTrouble.Overtaken, Assert.IsType<SubmissionOutcome.Trouble>(outcome).What);
        Assert.Equal(size, one.Counter.Ledger.Log.Head!.Size);
        Assert.Empty(one.Counter.Rows.Versions("J-1"));
    }

    [SkippableFact]
    public async Task Rules_ThatComeBackWhileARecordIsJudged_AreThoseThatItWasJudgedBy()
    {
        await using var one = new RejudgedHistory(Drawer);
        one.BeginWith(RejudgedHistory.Lenient);
        var underWay = one.Submitting;
        one.Activate(RejudgedHistory.Strict);
        one.Activate(RejudgedHistory.Lenient);

        var outcome = await underWay.SubmitAsync(new Submission(RejudgedHistory.TooHigh("J-1")));

        Assert.Equal(RejudgedHistory.Lenient.Digest, Digest(outcome, "packs"));
    }

    [SkippableFact]
    public async Task Record_OvertakenEachTime_IsToldSo()
    {
        await using var one = new RejudgedHistory(Drawer);
        one.BeginWith(RejudgedHistory.Lenient);
        var next = new Queue<RuleDocument>();
        for (var time = 0; time < 10; time++)
        {
            next.Enqueue(time % 2 == 0 ? RejudgedHistory.Strict : RejudgedHistory.Lenient);
        }

        var rules = new AskedRules(one.Counter.Folder.Rules)
        {
            EachTimeAsked = () => one.Activate(next.Dequeue()),
        };

        var outcome = await Submitting(one, rules)
            .SubmitAsync(new Submission(RejudgedHistory.TooHigh("J-1")));

        Assert.Equal(StoreTrouble.Overtaken, Assert.IsType<SubmissionOutcome.Trouble>(outcome).What);
        Assert.Equal(6, next.Count);
        Assert.Empty(one.Counter.Rows.Versions("J-1"));
    }

    [SkippableTheory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task Record_JudgedWhileAWaiverWasEnteredOrWithdrawn_IsJudgedByWhatCounts(bool isWithdrawn)
    {
        await using var one = new RejudgedHistory(Drawer);
        one.BeginWith(RejudgedHistory.Strict);
        var site = Jobs.Rules.Site!;
        var waiving = new KeepWaivers(one.Counter.Ledger, Jobs.Rules.Library, site.Name, false);
        if (isWithdrawn)
        {
            Assert.IsType<WaiverOutcome.Done>(waiving.Enter(Jobs.Rules.Book, Wet, "key:1"));
        }

        var rules = new AskedRules(one.Counter.Folder.Rules);
        var waivers = new AskedWaivers(one.Counter.Folder.Waivers);
        var submitting = Submitting(one, rules, waivers);
        waivers.OnceAsked = () =>
            Assert.IsType<WaiverOutcome.Done>(
                isWithdrawn
                    ? waiving.Withdraw(1, "dry", "key:1")
                    : waiving.Enter(Jobs.Rules.Book, Wet, "key:1")
            );

        var outcome = await submitting.SubmitAsync(new Submission(RejudgedHistory.TooHigh("J-1")));

        var context = one.Counter.Ledger.Log.Sound(Digest(outcome, "context"))!.Value;
        var counted = JsonNode.Parse(context.Span)!["waivers"]?.AsArray().Count ?? 0;
        Assert.Equal(isWithdrawn ? 0 : 1, counted);
        Assert.Equal(1, Assessments(one));
    }

    [SkippableFact]
    public async Task History_JudgedAgain_MissesNothingThatWasUnderWay()
    {
        await using var one = new RejudgedHistory(Drawer);
        one.BeginWith(RejudgedHistory.Lenient);
        await one.FileAsync("J-1", isTooHigh: true);
        var rules = new AskedRules(one.Counter.Folder.Rules);
        var submitting = Submitting(one, rules);
        rules.OnceAsked = () =>
        {
            one.Activate(RejudgedHistory.Strict);
            _ = one.Begin(RejudgedHistory.Strict);
            Assert.Equal(1, one.Page(1)!.Turned);
        };

        _ = await submitting.SubmitAsync(new Submission(RejudgedHistory.TooHigh("J-3")));

        Assert.Equal(("hold", "hold"), (one.Of("J-1").Disposition, one.Of("J-3").Disposition));
    }

    private static SubmittingNow Submitting(
        RejudgedHistory one,
        IRulesStore rules,
        IWaiverReading? waivers = null
    ) =>
        new(
            new ActiveRules(rules, new SiteWaivers(waivers ?? one.Counter.Folder.Waivers, Jobs.Rules.Site!)),
            one.Counter.Ledger,
            one.Counter.Filing,
            NoticeRecipients.None
        );

    private static string Digest(SubmissionOutcome outcome, string name) =>
        Digest(Assert.IsType<SubmissionOutcome.Stored>(outcome).Submission, name);

    private static string Digest(StoredSubmission stored, string name) =>
        JsonNode.Parse(stored.AssessmentBytes!.Value.Span)!["digests"]![name]!.GetValue<string>();

    private static int Assessments(RejudgedHistory one) =>
        one
            .Counter.Ledger.Log.Entries(0)
            .Count(entry => JsonNode.Parse(entry.Bytes.Span)!["kind"]!.GetValue<string>() == "assessment");
}
