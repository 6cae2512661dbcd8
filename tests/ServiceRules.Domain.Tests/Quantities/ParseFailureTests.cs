using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Tests.Quantities;

public sealed class ParseFailureTests
{
    [Theory]
    [InlineData("", "is empty")]
    [InlineData("0.05", "has no space between a number and a unit")]
    [InlineData("0.05mm", "has no space between a number and a unit")]
    [InlineData(" 0.05 mm", "has white space before or after it")]
    [InlineData("0.05 mm ", "has white space before or after it")]
    [InlineData("0.05 cm", "has no unit of length that is known here")]
    [InlineData("0,05 mm", "is not a plain decimal number with a digit on both sides of any point")]
    [InlineData(".05 in", "is not a plain decimal number with a digit on both sides of any point")]
    [InlineData("0.0500000000000 mm", "has more than 12 digits")]
    [InlineData("1/16 mm", "is a fraction, and only inches are written in fractions")]
    [InlineData("1-1/16 in", "is not a fraction such as `1/16` or `1 1/16`")]
    [InlineData("1/3 in", "is not a proper fraction with a denominator of 2, 4, 8, 16, 32, 64 or 128")]
    [InlineData("100000.1 mm", "is longer than 100 m")]
    [InlineData("0.0000000000000000000000000000000000000001 mm", "is longer than 40 characters")]
    public void Problem_OfALength_NamesWhatIsWrong(string text, string problem)
    {
        Assert.False(PrintedLength.Parse(text).TryGet(out _, out ParseFailure? failure));
        Assert.Equal(problem, failure.Problem);
        Assert.Equal(PrintedLength.AcceptedForms, failure.Accepted);
    }

    [Fact]
    public void ToString_Failure_IsOneWholeSentence()
    {
        Assert.False(Angle.Parse("30 rad").TryGet(out _, out ParseFailure? failure));
        Assert.Equal(
            "`30 rad` has no unit of angle that is known here; accepted: a number within 360 either way, one space and deg, such as `30 deg`",
            failure.ToString()
        );
    }

    [Theory]
    [InlineData("0.05 mm\n", "0.05 mm\\u000A")]
    [InlineData("0.05\u00A0mm", "0.05\\u00A0mm")]
    [InlineData("\u202E5 mm", "\\u202E5 mm")]
    [InlineData("\U0001F4CF mm", "\U0001F4CF mm")]
    [InlineData("5\u001B[31m mm", "5\\u001B[31m mm")]
    public void Found_InvisibleOrBrokenCharacters_AreSpelledOut(string text, string found)
    {
        Assert.False(PrintedLength.Parse(text).TryGet(out _, out ParseFailure? failure));
        Assert.Equal(found, failure.Found);
    }

    // Attributes cannot carry half a surrogate pair.
    [Fact]
    public void Found_HalfASurrogatePair_IsSpelledOut()
    {
        Assert.False(PrintedLength.Parse("\uD800 mm").TryGet(out _, out ParseFailure? failure));
        Assert.Equal("\\uD800 mm", failure.Found);
    }

    [Fact]
    public void Found_VeryLongText_IsCutWithoutBreakingACharacter()
    {
        string text = new string('5', 39) + "\U0001F4CF" + new string('5', 1_000_000);

        Assert.False(PrintedLength.Parse(text).TryGet(out _, out ParseFailure? failure));
        Assert.Equal(new string('5', 39) + "…", failure.Found);
    }

    [Fact]
    public void OrThrow_RefusedText_CarriesTheSentence()
    {
        FormatException thrown = Assert.Throws<FormatException>(() => PrintedLength.Parse("5").OrThrow());

        Assert.StartsWith("`5` has no space", thrown.Message, StringComparison.Ordinal);
    }
}
