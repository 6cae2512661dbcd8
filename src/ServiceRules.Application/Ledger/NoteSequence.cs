using System.Text;

namespace ServiceRules.Application.Ledger;

/// <summary>
/// Several signed notes in one file: each is followed by a blank line. A single note as other programs write it, without
/// the blank line, is a sequence of one.
/// </summary>
public static class NoteSequence
{
    private const string SignatureMark = "— ";

    /// <summary>The notes in their order. What cannot be told apart comes as one, for its reader to refuse.</summary>
    public static IEnumerable<string> Split(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        var note = new StringBuilder();
        var isSigned = false;
        foreach (var line in Lines(text))
        {
            var isSignature = line.StartsWith(SignatureMark, StringComparison.Ordinal);
            if (isSigned && !isSignature)
            {
                yield return note.ToString();
                note.Clear();
                isSigned = false;
                if (line == "\n")
                {
                    continue;
                }
            }

            isSigned |= isSignature;
            note.Append(line);
        }

        if (note.Length > 0)
        {
            yield return note.ToString();
        }
    }

    /// <summary>Whether a note has a line that looks like a signature.</summary>
    public static bool IsSigned(string note) =>
        Lines(note).Any(line => line.StartsWith(SignatureMark, StringComparison.Ordinal));

    public static string Join(IEnumerable<string> notes) => string.Concat(notes.Select(note => note + "\n"));

    /// <summary>
    /// How much of a file that is only ever appended to is whole: up to the last blank line that closes a note. What a
    /// power cut left behind it was never acknowledged.
    /// </summary>
    public static int WholeLength(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        var (at, whole, isSigned) = (0, 0, false);
        foreach (var line in Lines(text))
        {
            at += line.Length;
            whole = isSigned && line == "\n" ? at : whole;
            isSigned = line.StartsWith(SignatureMark, StringComparison.Ordinal) && line.EndsWith('\n');
        }

        return whole;
    }

    // Each with its line break; a last line may be without.
    private static IEnumerable<string> Lines(string text)
    {
        for (var at = 0; at < text.Length; )
        {
            var end = text.IndexOf('\n', at);
            end = end < 0 ? text.Length : end + 1;
            yield return text[at..end];
            at = end;
        }
    }
}
