using System.Collections.Immutable;
using ServiceRules.Application.Demo;
using ServiceRules.Application.Packs;
using ServiceRules.Application.Tests.Filed;
using ServiceRules.Application.Tests.Ledger;
using ServiceRules.Application.Waiving;

namespace ServiceRules.Application.Tests.Demo;

public sealed class DemoJudgingTests
{
    [Fact]
    public void Job_WhoseTurnComesAfterAnActivation_IsJudgedByTheRulesThatAreInForceThen()
    {
        var store = new MemoryPacks();
        var first = RuleDocument.Of(RecordFiles.Rules.Book);
        var book = RecordFiles.Rules.Book;
        var second = RuleDocument.Of(
            book with
            {
                Packs = [book.Packs[0] with { Title = "the same with another title" }, .. book.Packs.Skip(1)],
            }
        );
        _ = store.Begin(first.Digest, first.Bytes, DateTimeOffset.UnixEpoch, "first");
        _ = store.Keep(second.Digest, second.Bytes, DateTimeOffset.UnixEpoch);
        var judging = new DemoJudging(
            new ActiveRules(store, new SiteWaivers(new NoWaivers(), DemoSeasons.Site)),
            [.. DemoSeasons.Jobs.Take(3)]
        );

        var before = judging.Assess(DemoSeasons.Jobs[0]);
        _ = store.Activate(new(0, second.Digest, DateTimeOffset.UnixEpoch, "other"));
        var after = judging.Assess(DemoSeasons.Jobs[1]);

        Assert.Equal(first.Digest, before.Assessment.Digests.Packs);
        Assert.Equal(second.Digest, after.Assessment.Digests.Packs);
    }

    private sealed class NoWaivers : IWaiverReading
    {
        public WaiverMark Mark(string site) => new(0, 0);

        public ImmutableArray<KeptWaiver> Of(string site) => [];

        public ImmutableArray<WaiverRow> Rows() => [];
    }
}
