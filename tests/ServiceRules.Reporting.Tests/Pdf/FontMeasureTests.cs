using System.Security.Cryptography;
using ServiceRules.Reporting.Layout;
using ServiceRules.Reporting.Pdf;
using ServiceRules.TestKit;

namespace ServiceRules.Reporting.Tests.Pdf;

public class FontMeasureTests
{
    [Theory]
    [InlineData(Face.Text)]
    [InlineData(Face.TextBold)]
    [InlineData(Face.Narrow)]
    [InlineData(Face.NarrowBold)]
    public void Width_Digits_AreAllEqualSoThatColumnsLineUp(Face face) =>
        Assert.Single(
            "0123456789".Select(digit => FontMeasure.Shipped.Width(digit.ToString(), face, 9)).Distinct()
        );

    // Advance widths of the font files, in 2048ths of the size, as any font viewer shows them.
    [Theory]
    [InlineData(Face.Text, "0", 1151)]
    [InlineData(Face.Narrow, "0", 1011)]
    [InlineData(Face.Text, "00", 2302)]
    public void Width_KnownCharacters_IsTheAdvanceInTheFontFile(Face face, string text, double units) =>
        Assert.Equal(units / 2048 * 10, FontMeasure.Shipped.Width(text, face, 10), 3);

    [Theory]
    [InlineData("≤≥±µ−×°½⅛–—“”’•…ÄßéŁЖΩ", true)]
    [InlineData("→✓日\U0001F600", false)]
    public void Covers_Characters_IsKnown(string text, bool expected) =>
        Assert.All(
            text.EnumerateRunes(),
            rune => Assert.Equal(expected, FontMeasure.Shipped.Covers(rune, Face.Text))
        );

    [Fact]
    public void Fonts_Shipped_AreTheOnesTheNoteNames()
    {
        var note = File.ReadAllText(
            ReferenceFiles.InRepository("src", "ServiceRules.Reporting", "Pdf", "Fonts", "README.md")
        );

        Assert.All(
            Enum.GetValues<Face>(),
            face =>
                Assert.Contains(
                    Convert.ToHexStringLower(SHA256.HashData(ShippedFonts.Read(face))),
                    note,
                    StringComparison.Ordinal
                )
        );
    }
}
