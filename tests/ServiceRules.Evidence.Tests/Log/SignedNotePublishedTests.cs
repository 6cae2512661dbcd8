using System.Text.Json;
using ServiceRules.Evidence.Log;

namespace ServiceRules.Evidence.Tests.Log;

/// <summary>The signed note that C2SP publishes as an example, and what it says must fail.</summary>
public sealed class SignedNotePublishedTests
{
    private static readonly JsonElement Vector = MerkleVectors.Read("signed-note-vector.json");

    private static string Text(string member) => Vector.GetProperty(member).GetString()!;

    private static NoteKey Key => Bytes.Key(Text("verifier_key"));

    private static string Line => $"— {Text("key_name")} {Text("signature_base64")}\n";

    private static string Whole => $"{Text("note_text")}\n{Line}";

    private static bool IsTrusted(byte[] note) =>
        SignedNote.TryParse(note, out var read, out _) && read.Verify([Key]).IsTrusted;

    [Fact]
    public void Note_AsPublished_IsReadVerifiedAndWrittenBack()
    {
        var note = Bytes.Note(Whole);

        Assert.Equal(Text("note_text"), note.Text);
        Assert.Equal(Whole, note.ToString());
        Assert.Equal(Text("key_name"), Key.Name);
        Assert.Equal(Text("key_id_hex"), Key.IdText);
        Assert.Equal(Vector.GetProperty("signature_type").GetInt32(), (int)Key.Algorithm);
        Assert.Equal(Text("verifier_key"), Key.ToString());
        var verdict = note.Verify([Key]);
        Assert.True(verdict.IsTrusted);
        Assert.Equal(new VerifiedSignature(Key, null), Assert.Single(verdict.Verified));
    }

    [Fact]
    public void Note_AnyBitChanged_IsNotTrusted()
    {
        var bytes = Bytes.Of(Whole);

        Assert.True(IsTrusted(bytes));
        for (var bit = 0; bit < 8 * bytes.Length; bit++)
        {
            Assert.False(IsTrusted(Bytes.Flipped(bytes, bit)), $"bit {bit}");
        }
    }

    [Fact]
    public void Note_AnyByteLeftOutOrDoubled_IsNotTrusted()
    {
        var bytes = Bytes.Of(Whole);
        for (var at = 0; at < bytes.Length; at++)
        {
            Assert.False(IsTrusted([.. bytes[..at], .. bytes[(at + 1)..]]), $"byte {at} left out");
            Assert.False(IsTrusted([.. bytes[..at], bytes[at], .. bytes[at..]]), $"byte {at} twice");
        }
    }

    [Fact]
    public void Note_TextWithoutItsNewline_IsNotTrusted() =>
        Assert.False(IsTrusted(Bytes.Of($"{Text("note_text").TrimEnd('\n')}\n{Line}")));

    [Fact]
    public void Note_HyphenForTheDash_IsToldWithItsLine()
    {
        Assert.False(
            SignedNote.TryParse(
                Bytes.Of(Whole.Replace("— ", "- ", StringComparison.Ordinal)),
                out _,
                out var faults
            )
        );

        Assert.Equal(3, Assert.Single(faults).Line);
    }

    [Theory]
    [InlineData('\r')]
    [InlineData('\t')]
    [InlineData('\0')]
    public void Note_ControlCharacter_IsToldWithItsLine(char control)
    {
        Assert.False(SignedNote.TryParse(Bytes.Of(Whole.Insert(4, $"{control}")), out _, out var faults));

        var fault = Assert.Single(faults);
        Assert.Equal(1, fault.Line);
        Assert.Contains($"U+{(int)control:X4}", fault.Found, StringComparison.Ordinal);
    }
}
