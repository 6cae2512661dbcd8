using System.Text;

namespace ServiceRules.Evidence.Tests;

public sealed class ContentHashTests
{
    // FIPS 180-4 example values for the empty message and "abc".
    private const string OfNothing =
        "sha256:e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855";
    private const string OfAbc = "sha256:ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad";

    [Theory]
    [InlineData("", OfNothing)]
    [InlineData("abc", OfAbc)]
    public void Of_PublishedMessages_GivesPublishedHash(string message, string expected) =>
        Assert.Equal(expected, ContentHash.Of(Encoding.ASCII.GetBytes(message)).ToString());

    [Fact]
    public void TryParse_TextForm_GivesTheEqualHash()
    {
        Assert.True(ContentHash.TryParse(OfAbc, out var hash));

        Assert.Equal(ContentHash.Of("abc"u8), hash);
        Assert.Equal(ContentHash.Of("abc"u8).GetHashCode(), hash.GetHashCode());
        Assert.NotEqual(ContentHash.Of("abd"u8), hash);
        Assert.NotEqual(default, hash);
    }

    [Theory]
    [InlineData(null)]
    [InlineData("")]
    [InlineData("ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad")]
    [InlineData("SHA256:ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad")]
    [InlineData("sha256:BA7816BF8F01CFEA414140DE5DAE2223B00361A396177A9CB410FF61F20015AD")]
    [InlineData("sha256:ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015a")]
    [InlineData("sha256:ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad0")]
    [InlineData("sha256:ga7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad")]
    [InlineData(" sha256:ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015a")]
    public void TryParse_AnyOtherText_IsRefused(string? text) =>
        Assert.False(ContentHash.TryParse(text, out _));

    [Fact]
    public void Equals_OneBitChangedAnywhere_IsFalse()
    {
        var bytes = ContentHash.Of("abc"u8).ToBytes();
        for (var bit = 0; bit < 8 * ContentHash.ByteCount; bit++)
        {
            var changed = (byte[])bytes.Clone();
            changed[bit / 8] ^= (byte)(1 << (bit % 8));

            Assert.True(ContentHash.TryFromBytes(changed, out var other));
            Assert.NotEqual(ContentHash.Of("abc"u8), other);
            Assert.Equal(changed, other.ToBytes());
        }
    }

    [Theory]
    [InlineData(0)]
    [InlineData(31)]
    [InlineData(33)]
    public void TryFromBytes_WrongLength_IsRefused(int length) =>
        Assert.False(ContentHash.TryFromBytes(new byte[length], out _));
}
