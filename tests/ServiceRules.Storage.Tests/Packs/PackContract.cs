using System.Data.Common;
using System.Text.Json.Nodes;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Notices;
using ServiceRules.Application.Packs;
using ServiceRules.Application.Submitting;
using ServiceRules.Application.Waiving;
using ServiceRules.Rules.Model;
using ServiceRules.Storage.Tests.Submitting;

namespace ServiceRules.Storage.Tests.Packs;

/// <summary>What every database must keep of packs and sheets, and of which of them judge.</summary>
public abstract class PackContract : DrawerContract
{
    private static readonly DateTimeOffset At = new(2026, 5, 1, 8, 0, 0, TimeSpan.Zero);

    private protected PackContract(Func<Drawer> drawer)
        : base(drawer) { }

    [SkippableFact]
    public void Begun_Twice_TheFirstCountsAlsoAfterOpeningAgain()
    {
        using (var folder = Drawer.Open())
        {
            Assert.Null(folder.Rules.InForce());
            Assert.Equal(
                new RulesActivation(1, "a", At, "first"),
                folder.Rules.Begin("a", new byte[] { 1 }, At, "first")
            );
            Assert.Equal("a", folder.Rules.Begin("b", new byte[] { 2 }, At, "second").Digest);
        }

        using var again = Drawer.Open();
        Assert.Equal(new RulesActivation(1, "a", At, "first"), Assert.Single(again.Rules.Activations(10)));
        Assert.Equal([1], again.Rules.Book("a")!.Value.ToArray());
        Assert.Null(again.Rules.Book("b"));
    }

    [SkippableFact]
    public void Kept_Twice_IsKeptOnce()
    {
        using var folder = Drawer.Open();

        Assert.True(folder.Store.Write(writing => writing.Packs.Keep("a", new byte[] { 1 }, At)));
        Assert.False(folder.Store.Write(writing => writing.Packs.Keep("a", new byte[] { 9 }, At.AddDays(1))));

        Assert.Equal([1], folder.Rules.Book("a")!.Value.ToArray());
        Assert.Equal(new StoredRules("a", At), Assert.Single(folder.Rules.Stored(10)));
        Assert.Null(folder.Rules.InForce());
    }

    [SkippableFact]
    public void Activated_InATransactionThatIsUndone_IsNothing()
    {
        using var folder = Drawer.Open();
        _ = folder.Rules.Begin("a", new byte[] { 1 }, At, "first");
        var next = new RulesActivation(0, "b", At, "milder") { By = "p-1", Entry = 7 };

        Assert.Throws<InvalidOperationException>(() =>
            folder.Store.Write<bool>(writing =>
            {
                _ = writing.Packs.Activate(next);
                throw new InvalidOperationException();
            })
        );
        Assert.Equal("a", folder.Rules.InForce()!.Digest);

        var made = folder.Store.Write(writing => writing.Packs.Activate(next));
        Assert.Equal(next with { Number = 2 }, made);
        Assert.Equal(made, folder.Rules.InForce());
        Assert.Equal([2, 1], folder.Rules.Activations(10).Select(one => one.Number));
    }

    [SkippableFact]
    public void Activation_Changed_IsRefusedByTheDatabase()
    {
        using (var folder = Drawer.Open())
        {
            _ = folder.Rules.Begin("a", new byte[] { 1 }, At, "first");
        }

        Assert.ThrowsAny<DbException>(() => Run("DELETE FROM rule_activation"));
        Assert.ThrowsAny<DbException>(() => Run("UPDATE rule_activation SET digest = 'b'"));
    }

    [SkippableFact]
    public async Task Activation_AtOneInstance_IsFollowedByAnother()
    {
        var (first, second) = (RuleDocument.Of(Jobs.Rules.Book), RuleDocument.Of(Renamed()));
        await using var one = new Counter(Drawer);
        await using var other = new Counter(Drawer);
        _ = one.Folder.Rules.Begin(first.Digest, first.Bytes, At, "first");
        var submitting = new SubmittingNow(
            new ActiveRules(other.Folder.Rules, new SiteWaivers(other.Folder.Waivers, Jobs.Rules.Site!)),
            other.Ledger,
            other.Filing,
            NoticeRecipients.None
        );
        _ = await submitting.SubmitAsync(new Submission(Jobs.Job("J-1")));
        Assert.True(new StoreRules(one.Ledger).Keep(second, "key:1"));
        Assert.IsType<ActivationOutcome.Activated>(
            new ActivateRules(one.Ledger, one.Folder.Rules).Activate(second.Digest, null, "milder", "key:1")
        );

        var next = await submitting.SubmitAsync(new Submission(Jobs.Job("J-5")));

        Assert.Equal(second.Digest, PacksOf(next));
        Assert.Equal(
            [first.Digest, second.Digest],
            other
                .Ledger.Log.About(FileRules.Subject)
                .Select(index => Entry(other, index))
                .Select(entry => entry["content"]!.GetValue<string>())
        );
    }

    private static JsonNode Entry(Counter counter, long index) =>
        JsonNode.Parse(counter.Ledger.Log.Entry(index)!.Bytes.Span)!;

    private static string PacksOf(SubmissionOutcome outcome) =>
        JsonNode.Parse(
            Assert.IsType<SubmissionOutcome.Stored>(outcome).Submission.AssessmentBytes!.Value.Span
        )!["digests"]!["packs"]!.GetValue<string>();

    private static RuleBook Renamed() =>
        Jobs.Rules.Book with
        {
            Packs =
            [
                Jobs.Rules.Book.Packs[0] with
                {
                    Title = "the same with another title",
                },
                .. Jobs.Rules.Book.Packs.Skip(1),
            ],
        };

    private protected abstract void Run(string sql);
}
