using FsCheck.Xunit;
using ServiceRules.Evidence.Log;

namespace ServiceRules.Evidence.Tests.Log;

public sealed class ProofTextTests : IDisposable
{
    private readonly SampleLog _log = new();

    public void Dispose() => _log.Dispose();

    [Fact]
    public void TlogProof_TextForm_IsThatOfTheStandard()
    {
        var proof = _log.Proof(2, 3);

        // C2SP tlog-proof by hand: the leaf's way up in a tree of 3 is the node over the first two.
        Assert.Equal(
            $"c2sp.org/tlog-proof@v1\nindex 2\n{MerkleTree.NodeHash(_log.Leaf(0), _log.Leaf(1))}\n\n{proof.Checkpoint}",
            proof.ToString()
        );
    }

    [Property(MaxTest = 200)]
    public void TlogProof_AnyLeaf_ReadsBackAndProvesItAlone(int seed)
    {
        var random = new Random(seed);
        var size = random.Next(1, 70);
        var index = random.Next(size);
        var text = _log.Proof(index, size).ToString();

        Assert.True(TlogProof.TryParse(Bytes.Of(text), out var read, out var faults), Bytes.Told(faults));

        Assert.Equal(text, read!.ToString());
        Assert.True(read.Proves(_log.Leaf(index)));
        Assert.False(read.Proves(_log.Leaf(index + 1)));
        Assert.True(read.Checkpoint.IsSignedBy(_log.Key));
    }

    [Fact]
    public void TlogProof_ExtraLine_IsKeptAsItStands()
    {
        var text = _log.Proof(2, 3)
            .ToString()
            .Replace("index", "extra AQID\nindex", StringComparison.Ordinal);

        Assert.True(TlogProof.TryParse(Bytes.Of(text), out var read, out _));

        Assert.Equal(text, read!.ToString());
    }

    [Theory]
    [InlineData("@v1", "@v2", 1)]
    [InlineData("index 2", "index 02", 2)]
    [InlineData("index 2", "index -1", 2)]
    [InlineData("index 2", "index", 2)]
    [InlineData("index 2", "Index 2", 2)]
    [InlineData("index 2\n", "", 2)]
    [InlineData("index 2", "extra AQI\nindex 2", 2)]
    [InlineData("=\n\n", "\n\n", 3)]
    [InlineData("=\n\n", "=\nAAAA\n\n", 4)]
    [InlineData("/ledger\n3\n", "/ledger\n03\n", 6)]
    [InlineData("\n\n— ", "\n— ", 9)]
    [InlineData("— ", "- ", 9)]
    public void TlogProof_AnyOtherSpelling_IsRefusedWithItsLine(string from, string to, int line)
    {
        var text = _log.Proof(2, 3).ToString();
        Assert.Contains(from, text, StringComparison.Ordinal);
        var at = text.IndexOf(from, StringComparison.Ordinal);

        Assert.False(
            TlogProof.TryParse(Bytes.Of(text[..at] + to + text[(at + from.Length)..]), out _, out var faults)
        );

        Assert.Equal(line, faults[0].Line);
    }

    [Fact]
    public void TlogProof_AnyBitChanged_ProvesNothing()
    {
        var bytes = Bytes.Of(_log.Proof(4, 7));
        for (var bit = 0; bit < 8 * bytes.Length; bit++)
        {
            Assert.False(
                TlogProof.TryParse(Bytes.Flipped(bytes, bit), out var read, out _)
                    && read.Proves(_log.Leaf(4))
                    && read.Checkpoint.IsSignedBy(_log.Key),
                $"bit {bit}"
            );
        }
    }

    [Fact]
    public void TlogProof_MoreHashesThanAnyTreeHas_IsRefused()
    {
        var text = _log.Proof(0, 1).ToString();
        var hashes = string.Concat(Enumerable.Repeat($"{MerkleTree.EmptyRoot}\n", 64));

        Assert.False(
            TlogProof.TryParse(
                Bytes.Of(text.Replace("index 0\n", $"index 0\n{hashes}", StringComparison.Ordinal)),
                out _,
                out var faults
            )
        );

        Assert.Equal("at most 63", Assert.Single(faults).Accepted);
    }

    [Fact]
    public void GrowthProof_TextForm_IsThatOfTheStandard() =>
        // C2SP tlog-witness by hand: from 2 to 3 the third leaf is all that is missing.
        Assert.Equal($"old 2\n{_log.Leaf(2)}\n", _log.Growth(2, 3).ToString());

    [Property(MaxTest = 200)]
    public void GrowthProof_AnySizes_ReadsBackAndProvesThemAlone(int seed)
    {
        var random = new Random(seed);
        var newSize = random.Next(1, 70);
        var oldSize = random.Next(1, newSize + 1);
        var text = _log.Growth(oldSize, newSize).ToString();

        Assert.True(GrowthProof.TryParse(Bytes.Of(text), out var read, out var faults), Bytes.Told(faults));

        Assert.Equal(text, read!.ToString());
        Assert.True(read.Proves(_log.Head(oldSize), _log.Head(newSize)));
        Assert.False(read.Proves(_log.Head(oldSize), _log.Head(newSize + 1)));
        Assert.False(read.Proves(_log.Head(oldSize - 1), _log.Head(newSize)));
    }

    [Fact]
    public void GrowthProof_OfTwoLogs_ProvesNothing()
    {
        using var other = new SampleLog("other.example/ledger");

        Assert.False(_log.Growth(2, 3).Proves(other.Head(2), _log.Head(3)));
    }

    [Fact]
    public void GrowthProof_EarlierHeadThatClaimsAnotherSize_ProvesNothing()
    {
        var claimed = new Checkpoint(SampleLog.Origin, 1, _log.Head(2).Root);

        Assert.False(_log.Growth(2, 3).Proves(claimed, _log.Head(3)));
    }

    [Theory]
    [InlineData("")]
    [InlineData("old\n")]
    [InlineData("old -1\n")]
    [InlineData("old 01\n")]
    [InlineData("old 1")]
    [InlineData("old 1\n\n")]
    [InlineData("old 1\nAAAA\n")]
    [InlineData("new 1\n")]
    public void GrowthProof_AnyOtherText_IsRefusedWithAReason(string text)
    {
        Assert.False(GrowthProof.TryParse(Bytes.Of(text), out _, out var faults));

        Assert.NotEmpty(faults);
    }
}
