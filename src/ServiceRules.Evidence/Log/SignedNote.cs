using System.Collections.Immutable;
using System.Diagnostics.CodeAnalysis;
using System.Text;

namespace ServiceRules.Evidence.Log;

/// <summary>
/// A text and the signatures below it, after C2SP signed-note. Reading one says nothing about its signatures: the text
/// counts only after <see cref="Verify"/> with keys that are trusted.
/// </summary>
public sealed class SignedNote
{
    /// <summary>The most signatures read, four times what C2SP asks of every reader.</summary>
    public const int SignaturesMost = 64;

    /// <summary>The longest note read, in bytes.</summary>
    public const int BytesMost = LogText.BytesMost;

    private const string Separator = "\n\n";

    internal SignedNote(string text, ImmutableArray<NoteSignature> signatures) =>
        (Text, Signatures) = (text, signatures);

    /// <summary>What is signed, with the newline at its end.</summary>
    public string Text { get; }

    /// <summary>The signatures, known and unknown ones, in their order; at least one.</summary>
    public ImmutableArray<NoteSignature> Signatures { get; }

    /// <summary>Reads a note: text, blank line, signature lines.</summary>
    /// <param name="utf8">The bytes of the note.</param>
    /// <param name="note">What they say.</param>
    /// <param name="faults">Everything that is wrong with them; empty where nothing is.</param>
    public static bool TryParse(
        ReadOnlySpan<byte> utf8,
        [NotNullWhen(true)] out SignedNote? note,
        out ImmutableArray<LogTextFault> faults
    )
    {
        note = null;
        return LogText.TryDecode(utf8, out var text, out faults) && TryRead(text, 1, out note, out faults);
    }

    /// <summary>Checks every signature that was made, or is said to be made, by one of the known keys.</summary>
    /// <param name="known">Keys that are trusted; signatures by others are left out of account.</param>
    public NoteVerdict Verify(IEnumerable<NoteKey> known)
    {
        var verified = ImmutableArray.CreateBuilder<VerifiedSignature>();
        var failed = ImmutableArray.CreateBuilder<NoteKey>();
        foreach (var key in known.Distinct())
        {
            foreach (var signature in Signatures.Where(key.IsNamedBy))
            {
                if (key.TryVerify(Text, signature, out var cosignedAt))
                {
                    verified.Add(new VerifiedSignature(key, cosignedAt));
                }
                else
                {
                    failed.Add(key);
                }
            }
        }

        return new NoteVerdict(verified.ToImmutable(), failed.ToImmutable());
    }

    /// <summary>The whole note as it is stored and sent.</summary>
    public override string ToString()
    {
        var whole = new StringBuilder(Text).Append('\n');
        foreach (var signature in Signatures)
        {
            whole.Append(signature).Append('\n');
        }

        return whole.ToString();
    }

    internal static bool TryRead(
        string whole,
        int firstLine,
        [NotNullWhen(true)] out SignedNote? note,
        out ImmutableArray<LogTextFault> faults
    )
    {
        note = null;
        var end = whole.LastIndexOf(Separator, StringComparison.Ordinal);
        if (end < 0 || end + Separator.Length == whole.Length)
        {
            faults = LogText.One(
                firstLine + LogText.Lines(whole).Length,
                "the end of the text",
                $"a blank line and {NoteSignature.AcceptedForm}"
            );
            return false;
        }

        var text = whole[..(end + 1)];
        var lines = LogText.Lines(whole[(end + Separator.Length)..]);
        var signatureLine = firstLine + LogText.Lines(text).Length + 1;
        if (lines.Length > SignaturesMost)
        {
            faults = LogText.One(
                signatureLine + SignaturesMost,
                FormattableString.Invariant($"{lines.Length} signature lines"),
                FormattableString.Invariant($"at most {SignaturesMost}")
            );
            return false;
        }

        var signatures = ImmutableArray.CreateBuilder<NoteSignature>();
        var found = ImmutableArray.CreateBuilder<LogTextFault>();
        for (var index = 0; index < lines.Length && found.Count < LogText.FaultsMost; index++)
        {
            if (NoteSignature.TryParse(lines[index], out var signature))
            {
                signatures.Add(signature);
            }
            else
            {
                found.Add(
                    new LogTextFault(
                        signatureLine + index,
                        LogText.Quoted(lines[index]),
                        NoteSignature.AcceptedForm
                    )
                );
            }
        }

        faults = found.ToImmutable();
        note = faults.IsEmpty ? new SignedNote(text, signatures.ToImmutable()) : null;
        return note is not null;
    }
}
