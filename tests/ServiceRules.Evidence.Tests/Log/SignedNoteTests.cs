using System.Text;
using FsCheck.Xunit;
using ServiceRules.Evidence.Log;

namespace ServiceRules.Evidence.Tests.Log;

public sealed class SignedNoteTests : IDisposable
{
    private readonly SampleLog _log = new();
    private readonly SampleLog _other = new("other.example/ledger");

    public void Dispose()
    {
        _log.Dispose();
        _other.Dispose();
    }

    [Fact]
    public void Verify_SignedByTheLog_IsTrustedByItsKeyAlone()
    {
        var read = Bytes.Checkpoint(_log.Signed(5).ToString());

        Assert.True(read.IsSignedBy(_log.Key));
        Assert.False(read.IsSignedBy(_other.Key));
        Assert.Equal(_log.Head(5), read.Head);
    }

    [Fact]
    public void Verify_OtherKeyOfTheSameName_IsLeftOutOfAccount()
    {
        using var namesake = new SampleLog();

        var verdict = _log.Signed(5).Note.Verify([namesake.Key]);

        Assert.Empty(verdict.Verified);
        Assert.Empty(verdict.Failed);
        Assert.False(verdict.IsTrusted);
    }

    [Fact]
    public void Verify_OneGoodAndOneFalseSignatureInKnownNames_IsNotTrusted()
    {
        var forged = _log.Signed(6).Note.Signatures.Single();
        var both = _log.Signed(5).With(forged);

        var verdict = both.Note.Verify([_log.Key]);

        Assert.Single(verdict.Verified);
        Assert.Equal(_log.Key, Assert.Single(verdict.Failed));
        Assert.False(verdict.IsTrusted);
    }

    [Fact]
    public void With_TheSameSignatureAgain_ChangesNothing()
    {
        var signed = _log.Signed(5);

        Assert.Same(signed, signed.With(signed.Note.Signatures.Single()));
    }

    [Fact]
    public void Sign_HeadOfAnotherLog_IsADefectOfTheCaller() =>
        Assert.Throws<ArgumentException>(() => SignedCheckpoint.By(_log.Signer, _other.Head(1)));

    [Fact]
    public void TryParse_TextWithBlankLines_EndsAtTheLastOne()
    {
        var signature = _log.Signed(5).Note.Signatures.Single();

        var note = Bytes.Note($"one\n\ntwo\n\n{signature}\n");

        Assert.Equal("one\n\ntwo\n", note.Text);
    }

    [Fact]
    public void TryParse_SeveralBadLines_TellsEachWithItsPlace()
    {
        var whole = _log.Signed(5).ToString() + "— a+b AAAAAAA=\n— name AAAA\n— name  AAAAAAA=\n";

        Assert.False(SignedNote.TryParse(Bytes.Of(whole), out _, out var faults));

        Assert.Equal([6, 7, 8], faults.Select(fault => fault.Line));
    }

    [Fact]
    public void TryParse_SixteenSignatures_AreRead()
    {
        var lines = string.Concat(
            Enumerable.Range(0, 16).Select(index => $"— w{index} {Convert.ToBase64String(new byte[68])}\n")
        );

        Assert.Equal(16, Bytes.Note($"text\n\n{lines}").Signatures.Length);
    }

    [Fact]
    public void TryParse_MoreSignaturesThanAnyoneNeeds_IsRefused()
    {
        var lines = string.Concat(Enumerable.Repeat("— w AAAAAAA=\n", SignedNote.SignaturesMost + 1));

        Assert.False(SignedNote.TryParse(Bytes.Of($"text\n\n{lines}"), out _, out var faults));

        Assert.Contains("at most 64", Assert.Single(faults).Accepted, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("")]
    [InlineData("text")]
    [InlineData("text\n")]
    [InlineData("text\n\n")]
    [InlineData("text\n— w AAAAAAA=\n")]
    [InlineData("text\n\n— w AAAAAAA=")]
    [InlineData("text\n\n— w AAAAAAA")]
    [InlineData("text\n\n— w AAAAAAB=\n")]
    [InlineData("text\n\n— w AAAA\n")]
    [InlineData("text\n\n— w AAAAAA==\n")]
    [InlineData("text\n\n— w\n")]
    [InlineData("text\n\n—  AAAAAAA=\n")]
    [InlineData("text\n\n— w AAAAAAA= \n")]
    [InlineData("text\n\n— w\u00a0x AAAAAAA=\n")]
    public void TryParse_WhatIsNoNote_IsRefusedWithAReason(string text)
    {
        Assert.False(SignedNote.TryParse(Encoding.UTF8.GetBytes(text), out var note, out var faults));

        Assert.Null(note);
        Assert.NotEmpty(faults);
        Assert.All(faults, fault => Assert.True(fault.Line >= 1 && fault.Accepted.Length > 0));
    }

    [Fact]
    public void TryParse_BytesThatAreNoUtf8_AreToldWithTheirLine()
    {
        Assert.False(SignedNote.TryParse([.. "one\ntwo"u8, 0xC0, 0x80, (byte)'\n'], out _, out var faults));

        Assert.Equal(2, Assert.Single(faults).Line);
    }

    [Fact]
    public void TryParse_LongerThanAnyNote_IsRefused()
    {
        Assert.False(SignedNote.TryParse(new byte[256 * 1024 + 1], out _, out var faults));

        Assert.Contains("262144", Assert.Single(faults).Accepted, StringComparison.Ordinal);
    }

    [Property(MaxTest = 1000)]
    public void Readers_ArbitraryBytes_NeverThrow(byte[] bytes)
    {
        byte[][] texts =
        [
            bytes,
            [.. bytes, (byte)'\n'],
            [.. "text\n\n— w "u8, .. bytes, (byte)'\n'],
            [.. "c2sp.org/tlog-proof@v1\n"u8, .. bytes, (byte)'\n'],
            [.. "old 1\n"u8, .. bytes, (byte)'\n'],
        ];
        foreach (var text in texts)
        {
            _ = SignedNote.TryParse(text, out _, out _);
            _ = SignedCheckpoint.TryParse(text, out _, out _);
            _ = TlogProof.TryParse(text, out _, out _);
            _ = GrowthProof.TryParse(text, out _, out _);
            _ = NoteKey.TryParse(Encoding.Latin1.GetString(text), out _, out _);
        }
    }

    [Fact]
    public void Verify_AnyBitOfASignedCheckpointChanged_IsNotTrusted()
    {
        var bytes = Bytes.Of(_log.Signed(1234));
        for (var bit = 0; bit < 8 * bytes.Length; bit++)
        {
            Assert.False(
                SignedCheckpoint.TryParse(Bytes.Flipped(bytes, bit), out var read, out _)
                    && read.IsSignedBy(_log.Key),
                $"bit {bit}"
            );
        }
    }
}
