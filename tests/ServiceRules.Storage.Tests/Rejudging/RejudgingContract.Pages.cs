using System.Text.Json.Nodes;
using ServiceRules.Application.Accounts;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Notices;
using ServiceRules.Application.Rejudging;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Evidence;

namespace ServiceRules.Storage.Tests.Rejudging;

// What comes of pages, by the rules that ship.
public abstract partial class RejudgingContract
{
    private static readonly NoticeRecipients Recipients = new([
        new("workshop", [Disposition.Hold, Disposition.Stop]),
    ]);

    [SkippableFact]
    public async Task Page_AtTwoInstancesAtOnce_IsFiledToldOfAndCountedOnce()
    {
        await using var one = new RejudgedHistory(Drawer, Recipients);
        await using var other = new RejudgedHistory(Drawer, Recipients);
        one.BeginWith(RejudgedHistory.Lenient);
        await one.FileAsync("J-1", isTooHigh: true);
        await other.FileAsync("J-3", isTooHigh: false);
        one.Activate(RejudgedHistory.Strict);
        Assert.Empty(one.Counter.Notices.Waiting(0));
        var (high, right) = (one.Of("J-1"), one.Of("J-3"));
        var begun = Assert.IsType<RejudgingBegun.Begun>(one.Begin(RejudgedHistory.Strict));
        Assert.Equal(2, begun.Job.Records);
        Assert.Equal(
            begun.Job,
            Assert.IsType<RejudgingBegun.Running>(other.Begin(RejudgedHistory.Strict)).Job
        );

        var came = await Task.WhenAll(
            Task.Run(() => one.PageAsync(1)),
            Task.Run(() => other.PageAsync(1)),
            Task.Run(() => one.PageAsync(1))
        );

        // Either of the two has findings that the milder rules did not make.
        Assert.Equal(new RejudgingCounts(2, 0, 0, 0), Assert.Single(came, counts => counts is not null));
        var job = one.Counter.Folder.Rejudgings.Find(RejudgedHistory.Strict.Digest)!;
        Assert.Equal((RejudgingState.Done, 2L), (job.State, job.Counts.Turned));
        Assert.Equal(("release", "hold"), (high.Disposition, one.Of("J-1").Disposition));
        Assert.Equal("release", one.Of("J-3").Disposition);
        Assert.NotEqual(right.Assessment, one.Of("J-3").Assessment);
        var entry = Entry(one, one.Of("J-1").Assessment);
        Assert.Equal(
            $"judged again by rules {RejudgedHistory.Strict.Digest}",
            entry["reason"]!.GetValue<string>()
        );
        Assert.Equal(2, Again(one));
        var owed = Assert.Single(one.Counter.Notices.Waiting(0));
        Assert.Equal((one.Of("J-1").Assessment, "workshop"), (owed.Entry, owed.Recipient));
        Assert.Empty(one.Defects);
        Assert.Empty(Drawer.Verify().Faults);
    }

    [SkippableFact]
    public async Task Record_FiledByTheseRulesWhilePagesWaited_IsPassedOver()
    {
        await using var one = new RejudgedHistory(Drawer);
        one.BeginWith(RejudgedHistory.Lenient);
        await one.FileAsync("J-1", isTooHigh: true);
        one.Activate(RejudgedHistory.Strict);
        _ = one.Begin(RejudgedHistory.Strict);
        await one.FileAsync("J-3", isTooHigh: true);
        Assert.Equal("hold", one.Of("J-3").Disposition);

        Assert.Equal(new RejudgingCounts(1, 0, 0, 0), await one.PageAsync(1));
        Assert.Equal(("hold", "hold"), (one.Of("J-1").Disposition, one.Of("J-3").Disposition));
    }

    [SkippableFact]
    public async Task Page_WhereTheInstallationBecameOneOfSeveralSites_IsNeitherDoneNorGivenUp()
    {
        await using var one = new RejudgedHistory(Drawer);
        one.BeginWith(RejudgedHistory.Lenient);
        await one.FileAsync("J-1", isTooHigh: true);
        one.Activate(RejudgedHistory.Strict);
        _ = one.Begin(RejudgedHistory.Strict);
        SiteSettling.Settle(Drawer.Accounts(one.Counter.Folder), ["Alder", "Birch"], RejudgedHistory.At);

        foreach (var way in new[] { one.PageAsync(1), one.GiveUpAsync(1) })
        {
            var refused = await Assert.ThrowsAsync<LedgerStoreException>(() => way);
            Assert.Equal(StoreTrouble.Outdated, refused.Trouble);
        }

        Assert.Equal(
            RejudgingState.Running,
            one.Counter.Folder.Rejudgings.Find(RejudgedHistory.Strict.Digest)!.State
        );
    }

    [SkippableFact]
    public async Task Page_GivenUp_IsToldAsFailedAndKeepsTheJobFromNothing()
    {
        await using var one = new RejudgedHistory(Drawer);
        one.BeginWith(RejudgedHistory.Lenient);
        await one.FileAsync("J-1", isTooHigh: true);
        one.Activate(RejudgedHistory.Strict);
        _ = one.Begin(RejudgedHistory.Strict);

        Assert.Equal(new RejudgingCounts(0, 0, 0, 1), await one.GiveUpAsync(1));
        Assert.Null(await one.GiveUpAsync(1));

        var done = one.Counter.Folder.Rejudgings.Find(RejudgedHistory.Strict.Digest)!;
        Assert.Equal((RejudgingState.Done, 1L), (done.State, done.Counts.Failed));
        Assert.Contains(
            "ledger rows",
            Assert.Single(one.Counter.Folder.Rejudgings.Failures(1, 10)).Why,
            StringComparison.Ordinal
        );
    }

    [SkippableFact]
    public async Task History_JudgedAgain_PassesOverWhatTheseRulesJudgedAndFilesNothingThatIsTheSame()
    {
        await using var one = new RejudgedHistory(Drawer);
        one.BeginWith(RejudgedHistory.Strict);
        await one.FileAsync("J-1", isTooHigh: true);
        _ = one.Begin(RejudgedHistory.Strict);

        Assert.Equal(new RejudgingCounts(0, 0, 1, 0), await one.PageAsync(1));

        one.Activate(RejudgedHistory.Renamed);
        var stood = one.Of("J-1");
        await one.FileAsync("J-3", isTooHigh: false);
        Assert.IsType<RejudgingBegun.NotInForce>(one.Begin(RejudgedHistory.Strict));
        Assert.IsType<RejudgingBegun.NotStored>(one.Begin(new("sha256:00", default)));
        _ = one.Begin(RejudgedHistory.Renamed);
        Assert.Equal(new RejudgingCounts(0, 1, 1, 0), await one.PageAsync(2));
        Assert.Equal(stood, one.Of("J-1"));
        Assert.Equal(0, Again(one));
        Assert.Null(await one.PageAsync(2));
    }

    [SkippableFact]
    public async Task Page_OfARecordThatCannotBeJudged_CountsItWithTheReasonAndJudgesTheOthers()
    {
        await using var one = new RejudgedHistory(Drawer);
        one.BeginWith(RejudgedHistory.Lenient);
        await one.FileAsync("J-1", isTooHigh: true);
        await one.FileAsync("J-3", isTooHigh: true);
        one.Activate(RejudgedHistory.Strict);
        _ = one.Begin(RejudgedHistory.Strict);
        var content = HashOf(one.Counter.Rows.Versions("J-1").Single().RecordHash);
        _ = one.Counter.Store.Write(writing =>
        {
            writing.Remove(content);
            return true;
        });

        Assert.Equal(new RejudgingCounts(1, 0, 0, 1), await one.PageAsync(1));

        var failure = Assert.Single(one.Counter.Folder.Rejudgings.Failures(1, 10));
        Assert.Equal("J-1", failure.Record);
        Assert.Equal("its content: no longer kept", failure.Why);
        Assert.Equal("hold", one.Of("J-3").Disposition);
    }

    [SkippableFact]
    public async Task Page_OfARecordWhoseSheetTheRulesLack_CountsItAsNotJudged()
    {
        await using var one = new RejudgedHistory(Drawer);
        one.BeginWith(RejudgedHistory.Strict);
        await one.FileAsync("J-1", isTooHigh: false);
        one.Activate(RejudgedHistory.WithoutSheets);
        _ = one.Begin(RejudgedHistory.WithoutSheets);

        Assert.Equal(new RejudgingCounts(0, 0, 0, 1), await one.PageAsync(1));

        Assert.StartsWith(
            "these rules lack what it names: ",
            Assert.Single(one.Counter.Folder.Rejudgings.Failures(1, 10)).Why,
            StringComparison.Ordinal
        );
        Assert.Empty(one.Defects);
    }

    [SkippableFact]
    public async Task Page_WhenOtherRulesWerePutInForce_EndsTheJobAndFilesNothing()
    {
        await using var one = new RejudgedHistory(Drawer);
        one.BeginWith(RejudgedHistory.Lenient);
        await one.FileAsync("J-1", isTooHigh: true);
        one.Activate(RejudgedHistory.Strict);
        _ = one.Begin(RejudgedHistory.Strict);
        one.Activate(RejudgedHistory.Renamed);

        Assert.Null(await one.PageAsync(1));

        Assert.Equal(
            RejudgingState.Ended,
            one.Counter.Folder.Rejudgings.Find(RejudgedHistory.Strict.Digest)!.State
        );
        Assert.Equal(0, Again(one));
        // What nobody looked at since ends with the next.
        _ = one.Begin(RejudgedHistory.Renamed);
        one.Activate(RejudgedHistory.Strict);
        _ = Assert.IsType<RejudgingBegun.Begun>(one.Begin(RejudgedHistory.Strict));
        Assert.Equal(
            RejudgingState.Ended,
            one.Counter.Folder.Rejudgings.Find(RejudgedHistory.Renamed.Digest)!.State
        );
    }

    [SkippableFact]
    public async Task Page_OfARecordThatWasGoneOnWithSince_PassesItOver()
    {
        await using var one = new RejudgedHistory(Drawer);
        one.BeginWith(RejudgedHistory.Lenient);
        await one.FileAsync("J-1", isTooHigh: true);
        await one.FileAsync("J-3", isTooHigh: true);
        one.Activate(RejudgedHistory.Strict);
        _ = one.Begin(RejudgedHistory.Strict);
        await one.AmendAsync("J-1");

        Assert.Equal(new RejudgingCounts(1, 0, 1, 0), await one.PageAsync(1));
        Assert.Equal(1, Again(one));
    }

    private static int Again(RejudgedHistory one) =>
        one
            .Counter.Ledger.Log.Entries(0)
            .Count(entry =>
                JsonNode
                    .Parse(entry.Bytes.Span)!["reason"]
                    ?.GetValue<string>()
                    .StartsWith("judged again by rules", StringComparison.Ordinal)
                ?? false
            );

    private static JsonNode Entry(RejudgedHistory one, long index) =>
        JsonNode.Parse(one.Counter.Ledger.Log.Entry(index)!.Bytes.Span)!;

    private static ContentHash HashOf(string digest) =>
        ContentHash.TryParse(digest, out var hash) ? hash : throw new InvalidOperationException("no digest");
}
