using ServiceRules.Reporting.Layout;

namespace ServiceRules.Reporting.Tests.Layout;

public class VisibleTextTests
{
    [Theory]
    [InlineData("plain ± µ", "plain ± µ")]
    [InlineData("a\U0001F600b", "a[U+1F600]b")]
    [InlineData("a\u202Eb", "a[U+202E]b")]
    [InlineData("a\u200Bb", "a[U+200B]b")]
    [InlineData("bell\a", "bell[U+0007]")]
    [InlineData("soft\u00ADhyphen", "soft[U+00AD]hyphen")]
    [InlineData("line\nbreak\ttab", "line\nbreak\ttab")]
    [InlineData("\u65E5\u672C", "[U+65E5][U+672C]")]
    public void Of_HardCharacters_AreSpelledOut(string text, string expected) =>
        Assert.Equal(expected, VisibleText.Of(text, Face.Text, new PlainMeasure()));

    [Theory]
    [InlineData(0xD83D, "[U+D83D]")]
    [InlineData(0xDE00, "[U+DE00]")]
    public void Of_HalfASurrogatePair_IsSpelledOut(int half, string expected) =>
        Assert.Equal($"x{expected}y", VisibleText.Of($"x{(char)half}y", Face.Text, new PlainMeasure()));
}
