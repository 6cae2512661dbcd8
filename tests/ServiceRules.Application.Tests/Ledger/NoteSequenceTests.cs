using System.Text;
using ServiceRules.Application.Ledger;

namespace ServiceRules.Application.Tests.Ledger;

public sealed class NoteSequenceTests
{
    private const string One = "log\n1\nroot\n\n— log sig1\n";
    private const string Two = "log\n2\nroot\n\n— log sig2\n— witness sig3\n";

    [Fact]
    public void Split_WhatJoinPut_GivesTheSameNotes() =>
        Assert.Equal([One, Two, One], NoteSequence.Split(NoteSequence.Join([One, Two, One])));

    [Fact]
    public void Split_OneNoteAsOthersWriteIt_GivesIt() => Assert.Equal([Two], NoteSequence.Split(Two));

    [Fact]
    public void Split_NotesWithoutBlankLinesBetween_GivesEach() =>
        Assert.Equal([One, Two], NoteSequence.Split(One + Two));

    [Fact]
    public void Split_SomethingElse_GivesItForItsReaderToRefuse() =>
        Assert.Equal(["scribble\n"], NoteSequence.Split("scribble\n"));

    [Fact]
    public void WholeLength_EveryCutOfAFile_EndsBehindItsLastWholeNote()
    {
        var text = NoteSequence.Join([One, Two]);
        var first = NoteSequence.Join([One]).Length;

        for (var cut = 0; cut <= text.Length; cut++)
        {
            var expected =
                cut == text.Length ? text.Length
                : cut >= first ? first
                : 0;
            Assert.Equal(expected, NoteSequence.WholeLength(text[..cut]));
        }
    }

    [Fact]
    public void KeptLength_EveryCutOfAFile_KeepsTheNoteThatLacksItsBlankLineAlone()
    {
        var text = NoteSequence.Join([One, One]);
        var first = NoteSequence.Join([One]).Length;

        for (var cut = 0; cut <= text.Length; cut++)
        {
            var expected =
                cut >= text.Length - 1 ? cut
                : cut >= first ? first
                : cut == first - 1 ? cut
                : 0;
            Assert.Equal(expected, NoteSequence.KeptLength(text[..cut]));
        }
    }

    [Theory]
    [InlineData("log\r\n1\r\nroot\r\n\r\n— log sig1\r\n")]
    [InlineData("a\nb\nc\nd\ne\nf\n")]
    [InlineData("log\n1\n\0\0ro")]
    public void KeptLength_WhatIsNoBeginningOfANote_IsNone(string rest)
    {
        Assert.Null(NoteSequence.KeptLength(rest));
        Assert.Null(NoteSequence.KeptLength(NoteSequence.Join([One]) + rest));
    }

    [Fact]
    public void Split_EveryCutMadeWhole_GivesWholeNotesOnly()
    {
        var bytes = Encoding.UTF8.GetBytes(NoteSequence.Join([One, Two]));
        for (var cut = 0; cut <= bytes.Length; cut++)
        {
            var text = Encoding.UTF8.GetString(bytes.AsSpan(0, cut));
            Assert.All(
                NoteSequence.Split(text[..NoteSequence.WholeLength(text)]),
                note => Assert.Contains(note, new[] { One, Two })
            );
        }
    }
}
