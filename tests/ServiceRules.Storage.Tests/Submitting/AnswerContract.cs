using ServiceRules.Application.Ledger;
using ServiceRules.Application.Rows;
using ServiceRules.Application.Submitting;
using ServiceRules.Evidence;

namespace ServiceRules.Storage.Tests.Submitting;

/// <summary>What every database must forget, and what it must not.</summary>
public abstract class AnswerContract : DrawerContract
{
    private static readonly Correction Asked = new("officer-01", "asked for it");

    private protected AnswerContract(Func<Drawer> drawer)
        : base(drawer) { }

    [SkippableTheory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task Answers_OfAPersonWhoIsForgotten_Go(bool withContents)
    {
        await using var counter = new Counter(Drawer);
        await counter.SubmitAsync(Jobs.Job("J-1"), "signed-off");
        await counter.SubmitAsync(Jobs.Job("J-2"), "sent", by: "clerk-01");
        await counter.SubmitAsync(Jobs.Job("J-2"), "stood", by: "tech-02");
        Assert.NotNull(counter.Rows.Answer(Key("signed-off")));

        Assert.IsType<FilingOutcome.Filed>(
            new ForgetPerson(counter.Ledger).Forget("tech-02", Asked, withContents)
        );

        Assert.Null(counter.Rows.Answer(Key("signed-off")));
        Assert.Null(counter.Rows.Answer(Key("stood")));
        // The record that the clerk sent names the person as well.
        Assert.Equal(withContents, counter.Rows.Answer(Key("sent")) is null);
    }

    [SkippableFact]
    public async Task Answers_OlderThanTheyAreKept_GoWhenAnotherIsKept()
    {
        await using var counter = new Counter(Drawer);
        var now = new DateTimeOffset(2026, 5, 1, 8, 0, 0, TimeSpan.Zero);
        var aged = now - AnsweredKey.KeptFor;
        Keep(counter, "old", aged.AddMilliseconds(-1));
        Keep(counter, "kept", aged);
        Assert.NotNull(counter.Rows.Answer(Key("old")));

        Keep(counter, "new", now);

        Assert.Null(counter.Rows.Answer(Key("old")));
        Assert.Equal("p-1", counter.Rows.Answer(Key("kept"))!.By);
        Assert.NotNull(counter.Rows.Answer(Key("new")));
    }

    [SkippableFact]
    public async Task Rows_WhoseMakingStoppedHalfWay_StillKnowSitesOfErasedContexts()
    {
        await using var counter = new Counter(Drawer);
        await counter.SubmitAsync(Jobs.Job("J-1"));
        var before = Assert.Single(counter.All().Records);
        Assert.NotNull(before.Site);
        counter.Store.Write(writing =>
        {
            foreach (var content in writing.Contents().Where(hash => IsContext(writing, hash)).ToList())
            {
                writing.Remove(content);
            }

            return true;
        });
        new FollowLog(counter.Ledger).Rebuild();
        Assert.Equal(before, Assert.Single(counter.All().Records));

        // As it is left when it stops before its first step.
        counter.Store.Write(writing =>
        {
            writing.Rows.Cover(0);
            return true;
        });
        new FollowLog(counter.Ledger).BringUp();

        Assert.Equal(before, Assert.Single(counter.All().Records));
    }

    [SkippableFact]
    public async Task Rows_ThatNothingInTheLogStandsBehind_GoWhenAllAreMadeAnew()
    {
        await using var counter = new Counter(Drawer);
        await counter.SubmitAsync(Jobs.Job("J-1"));
        var before = counter.All().Records;
        counter.Store.Write(writing =>
        {
            writing.Rows.Put(new RecordRows(before[0] with { Index = before[0].Index + 1 }, [], []));
            writing.Rows.Put(new RecordRows(before[0] with { Index = 77, Record = "J-9" }, [], []));
            return true;
        });
        Assert.Equal(3, counter.All().Records.Count);

        new FollowLog(counter.Ledger).Rebuild();

        Assert.Equal(before, counter.All().Records);
    }

    private static bool IsContext(ILedgerReading log, ContentHash hash) =>
        log.Content(hash) is { } bytes
        && System
            .Text.Encoding.UTF8.GetString(bytes.Span)
            .Contains("\"format\":\"assessment-context", StringComparison.Ordinal);

    private static SubmissionKey Key(string text) => new("alder", text);

    private static void Keep(Counter counter, string key, DateTimeOffset at) =>
        counter.Store.Write(writing =>
        {
            writing.Rows.Keep(
                new AnsweredKey(Key(key), ContentHash.Of("body"u8), SubmissionKind.Stored, 1, 2, at)
                {
                    By = "p-1",
                }
            );
            return true;
        });
}
