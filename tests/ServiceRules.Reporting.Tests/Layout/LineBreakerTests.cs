using FsCheck.Xunit;
using ServiceRules.Reporting.Layout;

namespace ServiceRules.Reporting.Tests.Layout;

public class LineBreakerTests
{
    private static readonly PlainMeasure Measure = new();

    // Ten points high: five points to a character.
    private static readonly TextStyle Style = new(Face.Text, 10, Ink.Black, 1.2);

    [Theory]
    [InlineData("gap left and right", 40, "gap left |and |right")]
    [InlineData("gap left and right", 200, "gap left and right")]
    [InlineData("gap  left \t and", 200, "gap left and")]
    [InlineData("one\ntwo\r\nthree", 200, "one |two |three")]
    [InlineData("one\n\ntwo", 200, "one ||two")]
    [InlineData("abcdefghijk", 25, "abcde|fghij|k")]
    [InlineData("no abcdefghijk", 25, "no |abcde|fghij|k")]
    [InlineData("reel-to-bedknife", 30, "reel-|to-|bedkni|fe")]
    [InlineData("2026-03-02", 30, "2026-0|3-02")]
    [InlineData("width 5", 35, "width 5")]
    public void Break_WorkedByHand_GivesTheseLines(string text, double width, string expected)
    {
        var lines = LineBreaker.Break([new Span(text, Style)], width, Measure);

        Assert.Equal(
            expected.Split('|'),
            lines.Select(line => string.Concat(line.Runs.Select(run => run.Content)))
        );
    }

    [Fact]
    public void Break_WordThroughTwoStyles_IsNotBrokenBetweenThem()
    {
        var bold = Style with { Face = Face.TextBold };

        var lines = LineBreaker.Break(
            [new Span("set to 0.0", Style), new Span("25", bold), new Span(" mm", Style)],
            50,
            Measure
        );

        Assert.Equal(
            ["set to ", "0.0+25 +mm"],
            lines.Select(line => string.Join('+', line.Runs.Select(run => run.Content)))
        );
        Assert.Equal(15, lines[1].Runs[1].X, 6);
    }

    [Fact]
    public void Break_LineOfTwoSizes_TakesTheLargerHeight()
    {
        var large = Style with { Size = 20 };

        var line = Assert.Single(
            LineBreaker.Break([new Span("a ", Style), new Span("b", large)], 100, Measure)
        );

        Assert.Equal(24, line.Height, 6);
        Assert.Equal(17, line.Baseline, 6);
    }

    [Property(MaxTest = 300)]
    public void Break_AnyText_PlacesEveryCharacterInOrderWithinTheWidth(string? text, byte widthInCharacters)
    {
        var width = 5.0 * (1 + (widthInCharacters % 60));
        var given = text ?? "";

        var lines = LineBreaker.Break([new Span(given, Style)], width, Measure);

        var placed = string.Concat(lines.SelectMany(line => line.Runs).Select(run => run.Content));
        Assert.Equal(Printable.Of(VisibleText.Of(given, Face.Text, Measure)), Printable.Of(placed));
        Assert.All(lines, line => Assert.True(line.Width <= Math.Max(width, 5) + 0.01));
        Assert.All(lines, line => Assert.Equal(line.Width, line.Runs.Sum(run => run.Width), 6));
    }
}
