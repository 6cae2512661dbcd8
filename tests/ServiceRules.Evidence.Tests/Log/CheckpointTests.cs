using ServiceRules.Evidence.Log;

namespace ServiceRules.Evidence.Tests.Log;

public sealed class CheckpointTests
{
    // The example of C2SP tlog-checkpoint.
    private const string Published =
        "example.com/behind-the-sofa\n20852163\nCsUYapGGPo4dkMgIAUqom/Xajj7h2fB2MPA3j2jxq2I=\n";

    // What stands below a checkpoint plays no part in how its lines are read.
    private static byte[] Noted(string text) => Bytes.Of($"{text}\n— name AAAAAAA=\n");

    [Fact]
    public void TryParse_PublishedExample_IsReadAndWrittenBack()
    {
        Assert.True(
            SignedCheckpoint.TryParse(Noted(Published), out var signed, out var faults),
            Bytes.Told(faults)
        );

        var checkpoint = signed!.Head;
        Assert.Equal("example.com/behind-the-sofa", checkpoint.Origin);
        Assert.Equal(20852163, checkpoint.Size);
        Assert.Equal("CsUYapGGPo4dkMgIAUqom/Xajj7h2fB2MPA3j2jxq2I=", checkpoint.Root.ToString());
        Assert.Equal(Published, checkpoint.Text);
    }

    [Theory]
    [InlineData("20852163", "020852163", 2)]
    [InlineData("20852163", "-1", 2)]
    [InlineData("20852163", "+1", 2)]
    [InlineData("20852163", " 1", 2)]
    [InlineData("20852163", "1 ", 2)]
    [InlineData("20852163", "1e3", 2)]
    [InlineData("20852163", "0x10", 2)]
    [InlineData("20852163", "٣", 2)]
    [InlineData("20852163", "9223372036854775808", 2)]
    [InlineData("20852163", "", 2)]
    [InlineData("q2I=\n", "q2I\n", 3)]
    [InlineData("q2I=\n", "q2J=\n", 3)]
    [InlineData("q2I=\n", "q2I==\n", 3)]
    [InlineData("q2I=\n", "q2I= \n", 3)]
    [InlineData("m/X", "m_X", 3)]
    [InlineData("q2I=\n", "q2I=\nextension\n", 4)]
    [InlineData("\nCsUYapGGPo4dkMgIAUqom/Xajj7h2fB2MPA3j2jxq2I=", "", 3)]
    [InlineData("example.com/behind-the-sofa", "", 1)]
    public void TryParse_AnyOtherSpelling_IsRefusedWithItsLine(string from, string to, int line)
    {
        Assert.Contains(from, Published, StringComparison.Ordinal);
        var text = Published.Replace(from, to, StringComparison.Ordinal);

        Assert.False(SignedCheckpoint.TryParse(Noted(text), out _, out var faults));

        Assert.Equal(line, Assert.Single(faults).Line);
    }

    [Fact]
    public void TryParse_SeveralBadLines_TellsAll()
    {
        Assert.False(SignedCheckpoint.TryParse(Noted("\n01\nx\n"), out _, out var faults));

        Assert.Equal([1, 2, 3], faults.Select(fault => fault.Line));
        Assert.Equal(
            "line 2: `01`; accepted: a decimal number from 0 to 9223372036854775807 without leading zeros",
            faults[1].ToString()
        );
    }

    [Theory]
    [InlineData("0")]
    [InlineData("9223372036854775807")]
    public void TryParse_SmallestAndLargestSize_AreRead(string size)
    {
        var text = Published.Replace("20852163", size, StringComparison.Ordinal);

        Assert.True(SignedCheckpoint.TryParse(Noted(text), out var signed, out _));

        Assert.Equal(text, signed!.Head.Text);
    }

    [Theory]
    [InlineData("")]
    [InlineData("two\nlines")]
    [InlineData("tab\t")]
    public void New_OriginThatIsNoLine_IsADefectOfTheCaller(string origin) =>
        Assert.Throws<ArgumentException>(() => new Checkpoint(origin, 0, MerkleTree.EmptyRoot));

    [Fact]
    public void New_NegativeSize_IsADefectOfTheCaller() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => new Checkpoint("a", -1, MerkleTree.EmptyRoot));
}
