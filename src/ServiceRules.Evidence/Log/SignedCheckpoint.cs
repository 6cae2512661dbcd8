using System.Collections.Immutable;
using System.Diagnostics.CodeAnalysis;

namespace ServiceRules.Evidence.Log;

/// <summary>A checkpoint with the signatures below it: the note that a log publishes and witnesses add to.</summary>
public sealed class SignedCheckpoint
{
    private SignedCheckpoint(Checkpoint head, SignedNote note) => (Head, Note) = (head, note);

    /// <summary>What is signed, read.</summary>
    public Checkpoint Head { get; }

    /// <summary>What is signed, as text, and by whom.</summary>
    public SignedNote Note { get; }

    /// <summary>Signs a head of the log.</summary>
    /// <param name="signer">The log's key.</param>
    /// <param name="head">The head; its origin is the name of the key.</param>
    /// <exception cref="ArgumentException">The head is of another log.</exception>
    public static SignedCheckpoint By(ILogSigner signer, Checkpoint head)
    {
        if (head.Origin != signer.Key.Name)
        {
            throw new ArgumentException(
                $"a checkpoint of `{head.Origin}` is not signed by the key of `{signer.Key.Name}`",
                nameof(head)
            );
        }

        var signature = NoteSignature.Of(signer.Key, signer.Sign(LogText.Encode(head.Text)));
        return new SignedCheckpoint(head, new SignedNote(head.Text, [signature]));
    }

    /// <summary>Reads a note whose text is a checkpoint.</summary>
    /// <param name="utf8">The bytes of the note.</param>
    /// <param name="checkpoint">What they say.</param>
    /// <param name="faults">Everything that is wrong with them; empty where nothing is.</param>
    public static bool TryParse(
        ReadOnlySpan<byte> utf8,
        [NotNullWhen(true)] out SignedCheckpoint? checkpoint,
        out ImmutableArray<LogTextFault> faults
    )
    {
        checkpoint = null;
        return SignedNote.TryParse(utf8, out var note, out faults)
            && TryRead(note, 1, out checkpoint, out faults);
    }

    /// <summary>The same checkpoint with one more signature; the same one again changes nothing.</summary>
    public SignedCheckpoint With(NoteSignature signature) =>
        Note.Signatures.Contains(signature) ? this : With(Note.Signatures.Add(signature));

    /// <summary>The same checkpoint without what stands there in the name of a key.</summary>
    public SignedCheckpoint Without(NoteKey key) => With(Note.Signatures.RemoveAll(key.IsNamedBy));

    /// <summary>The same checkpoint with one signature that holds of each of the keys, and nothing else.</summary>
    public SignedCheckpoint Keeping(IEnumerable<NoteKey> keys) =>
        With([
            .. keys.Select(key =>
                    Note.Signatures.FirstOrDefault(signature =>
                        key.IsNamedBy(signature) && key.TryVerify(Note.Text, signature, out _)
                    )
                )
                .OfType<NoteSignature>(),
        ]);

    /// <summary>Whether the key signed it, and no signature in the key's name fails.</summary>
    public bool IsSignedBy(NoteKey key) => Note.Verify([key]).IsTrusted;

    /// <summary>The whole note as it is stored and sent.</summary>
    public override string ToString() => Note.ToString();

    private SignedCheckpoint With(ImmutableArray<NoteSignature> signatures) =>
        new(Head, new SignedNote(Note.Text, signatures));

    internal static bool TryRead(
        string text,
        int firstLine,
        [NotNullWhen(true)] out SignedCheckpoint? checkpoint,
        out ImmutableArray<LogTextFault> faults
    )
    {
        checkpoint = null;
        return SignedNote.TryRead(text, firstLine, out var note, out faults)
            && TryRead(note, firstLine, out checkpoint, out faults);
    }

    private static bool TryRead(
        SignedNote note,
        int firstLine,
        [NotNullWhen(true)] out SignedCheckpoint? checkpoint,
        out ImmutableArray<LogTextFault> faults
    )
    {
        checkpoint = Checkpoint.TryRead(note.Text, firstLine, out var head, out faults)
            ? new SignedCheckpoint(head, note)
            : null;
        return checkpoint is not null;
    }
}
