using System.Collections.Immutable;
using System.Text.Json;
using FsCheck.Xunit;
using ServiceRules.Evidence.Log;

namespace ServiceRules.Evidence.Tests.Log;

public sealed class WitnessTests : IDisposable
{
    private static readonly JsonElement Vector = MerkleVectors.Read("witness-vector.json");

    private const int Sizes = 20;

    // The first is honest; the others tell the same log otherwise from some entry on, in the same hand.
    private static readonly SampleLog[] Histories =
    [
        new(),
        .. Enumerable.Range(1, 8).Select(turn => new SampleLog(turn: turn)),
    ];

    private static readonly Dictionary<(int History, int Size), SignedCheckpoint> Noted = Enumerable
        .Range(0, Histories.Length)
        .SelectMany(history => Enumerable.Range(0, Sizes).Select(size => (history, size)))
        .ToDictionary(each => each, each => Histories[0].Signed(Histories[each.history].Head(each.size)));

    private readonly SampleLog _log = new();

    public void Dispose() => _log.Dispose();

    private WitnessedLog Known(Checkpoint? latest) => new(SampleLog.Origin, [_log.Key], latest);

    private static WitnessRefusal RefusalOf(WitnessAnswer answer) =>
        answer is WitnessAnswer.Refused refused ? refused.Refusal : WitnessRefusal.None;

    [Fact]
    public void Consider_PublishedCheckpoints_AreAcceptedOneAfterTheOther()
    {
        var key = Bytes.Key(Vector.GetProperty("log_key").GetString()!);
        var first = Bytes.Checkpoint(Vector.GetProperty("checkpoint_5").GetString()!);
        var next = Bytes.Checkpoint(Vector.GetProperty("checkpoint_8").GetString()!);
        var growth = new GrowthProof(5, [.. MerkleVectors.Hashes(Vector.GetProperty("proof_5_to_8_hex"))]);

        Assert.IsType<WitnessAnswer.Accepted>(
            Witness.Consider(new WitnessedLog("monkeys", [key], null), GrowthProof.FromNothing, first)
        );
        Assert.IsType<WitnessAnswer.Accepted>(
            Witness.Consider(new WitnessedLog("monkeys", [key], first.Head), growth, next)
        );
        Assert.Equal(
            WitnessRefusal.OldSizeAboveNew,
            RefusalOf(
                Witness.Consider(new WitnessedLog("monkeys", [key], next.Head), new GrowthProof(8, []), first)
            )
        );
    }

    [Theory]
    [InlineData(0, 0)]
    [InlineData(0, 1)]
    [InlineData(3, 3)]
    [InlineData(3, 7)]
    [InlineData(8, 9)]
    public void Consider_LogThatGrew_IsAccepted(int oldSize, int newSize)
    {
        var latest = oldSize == 0 ? null : _log.Head(oldSize);

        var answer = Witness.Consider(Known(latest), _log.Growth(oldSize, newSize), _log.Signed(newSize));

        Assert.IsType<WitnessAnswer.Accepted>(answer);
    }

    [Fact]
    public void Consider_UnknownLog_IsRefused()
    {
        using var other = new SampleLog("other.example/ledger");

        var byName = Witness.Consider(Known(null), GrowthProof.FromNothing, other.Signed(1));
        var withoutKey = Witness.Consider(
            Known(null) with
            {
                Keys = ImmutableArray<NoteKey>.Empty,
            },
            GrowthProof.FromNothing,
            _log.Signed(1)
        );

        Assert.Equal(WitnessRefusal.UnknownLog, RefusalOf(byName));
        Assert.Equal(WitnessRefusal.UnknownLog, RefusalOf(withoutKey));
    }

    [Fact]
    public void Consider_SignedByAnotherKey_IsRefused()
    {
        using var namesake = new SampleLog();

        var answer = Witness.Consider(Known(null), GrowthProof.FromNothing, namesake.Signed(1));

        Assert.Equal(WitnessRefusal.NotSignedByTheLog, RefusalOf(answer));
    }

    [Fact]
    public void Consider_SmallerThanBefore_IsRefused()
    {
        Assert.Equal(
            WitnessRefusal.OldSizeAboveNew,
            RefusalOf(Witness.Consider(Known(_log.Head(7)), new GrowthProof(7, []), _log.Signed(3)))
        );
        Assert.Equal(
            WitnessRefusal.OtherOldSize,
            RefusalOf(Witness.Consider(Known(_log.Head(7)), _log.Growth(2, 3), _log.Signed(3)))
        );
        Assert.Equal(
            WitnessRefusal.OtherOldSize,
            RefusalOf(Witness.Consider(Known(_log.Head(7)), GrowthProof.FromNothing, _log.Signed(3)))
        );
    }

    [Fact]
    public void Consider_OtherOldSize_IsToldTheRightOne()
    {
        var answer = Witness.Consider(Known(_log.Head(7)), _log.Growth(6, 9), _log.Signed(9));

        var refused = Assert.IsType<WitnessAnswer.Refused>(answer);
        Assert.Equal(WitnessRefusal.OtherOldSize, refused.Refusal);
        Assert.EndsWith("accepted: the proof from 7", refused.Told, StringComparison.Ordinal);
    }

    [Fact]
    public void Consider_SecondRootOfOneSize_IsRefused()
    {
        using var changed = new SampleLog(turn: 6);
        var second = _log.Signed(changed.Head(7));

        var answer = Witness.Consider(Known(_log.Head(7)), new GrowthProof(7, []), second);

        var refused = Assert.IsType<WitnessAnswer.Refused>(answer);
        Assert.Equal(WitnessRefusal.NotConsistent, refused.Refusal);
        Assert.Contains("two histories", refused.Told, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(4)]
    [InlineData(6)]
    public void Consider_HistoryChanged_IsRefusedWithItsOwnProofToo(int turn)
    {
        using var changed = new SampleLog(turn: turn);
        var longer = _log.Signed(changed.Head(12));
        foreach (var growth in new[] { changed.Growth(7, 12), _log.Growth(7, 12), new GrowthProof(7, []) })
        {
            Assert.Equal(
                WitnessRefusal.NotConsistent,
                RefusalOf(Witness.Consider(Known(_log.Head(7)), growth, longer))
            );
        }
    }

    [Fact]
    public void Consider_HashesBeforeTheFirstOrAnEmptyTreeWithARoot_AreRefused()
    {
        var hashes = new GrowthProof(0, [_log.Leaf(0)]);
        var empty = new Checkpoint(SampleLog.Origin, 0, _log.Leaf(0));

        Assert.Equal(
            WitnessRefusal.NotConsistent,
            RefusalOf(Witness.Consider(Known(null), hashes, _log.Signed(3)))
        );
        Assert.Equal(
            WitnessRefusal.NotConsistent,
            RefusalOf(Witness.Consider(Known(null), GrowthProof.FromNothing, _log.Signed(empty)))
        );
    }

    /// <summary>Whatever is sent to it in whatever order, it only goes forward along one history.</summary>
    [Property(MaxTest = 1000)]
    public void Consider_AnySequence_NeverGoesBackOrAside(int seed)
    {
        var random = new Random(seed);
        var changed = Histories[random.Next(1, Histories.Length)];
        Checkpoint? latest = null;
        for (var step = 0; step < 8; step++)
        {
            var history = random.Next(3) == 0 ? changed : Histories[0];
            var newSize = random.Next(Sizes);
            var oldSize = random.Next(2) == 0 ? (int)(latest?.Size ?? 0) : random.Next(Sizes);
            var growth = oldSize <= newSize ? history.Growth(oldSize, newSize) : new GrowthProof(oldSize, []);
            var noted = Noted[(Array.IndexOf(Histories, history), newSize)];
            var answer = Witness.Consider(
                new WitnessedLog(SampleLog.Origin, [Histories[0].Key], latest),
                growth,
                noted
            );
            if (answer is not WitnessAnswer.Accepted)
            {
                continue;
            }

            var head = noted.Head;
            Assert.True(head.Size >= (latest?.Size ?? 0));
            Assert.True(
                latest is null || latest.Root == history.Head((int)latest.Size).Root,
                "it went over to another history"
            );
            latest = head;
        }
    }
}
