using System.Text;

namespace ServiceRules.Application.Ledger;

/// <summary>
/// Several signed notes in one file: each is followed by a blank line. A single note as other programs write it, without
/// the blank line, is a sequence of one.
/// </summary>
public static class NoteSequence
{
    private const string SignatureMark = "— ";

    /// <summary>Three lines of checkpoint, a blank one, and one signature.</summary>
    private const int LinesOfNote = 5;

    /// <summary>Several times the longest note that a log signs.</summary>
    private const int BeginningMost = 2048;

    /// <summary>The notes in their order. What cannot be told apart comes as one, for its reader to refuse.</summary>
    public static IEnumerable<string> Split(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        var note = new StringBuilder();
        var isSigned = false;
        foreach (var line in Lines(text))
        {
            var isSignature = IsSignature(line);
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
    public static bool IsSigned(string note) => Lines(note).Any(IsSignature);

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
            isSigned = IsSignature(line) && line.EndsWith('\n');
        }

        return whole;
    }

    /// <summary>
    /// How much of such a file stays when it goes on: the whole part, and behind it a note that lacks no more than its
    /// blank line. Null when what else is behind it is not the beginning of one note: no power cut left that, and it may
    /// be all that is left of others.
    /// </summary>
    public static int? KeptLength(string text)
    {
        var whole = WholeLength(text);
        var rest = Lines(text[whole..]).ToList();
        // Some file systems leave zeros where bytes were still to come.
        var isOurs = !text.AsSpan(whole).TrimEnd('\0').ContainsAny('\r', '\0');
        return !isOurs ? null
            : rest.Count > 0 && IsSignature(rest[^1]) && rest[^1].EndsWith('\n') ? text.Length
            : IsBeginning(rest) ? whole
            : null;
    }

    private static bool IsBeginning(List<string> lines) =>
        lines.Count <= LinesOfNote
        && lines.Sum(line => line.Length) <= BeginningMost
        && !lines.SkipLast(1).Any(IsSignature);

    private static bool IsSignature(string line) => line.StartsWith(SignatureMark, StringComparison.Ordinal);

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
