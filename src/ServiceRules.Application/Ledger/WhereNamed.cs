using System.Text;
using System.Text.Json;
using ServiceRules.Application.Assessing;
using ServiceRules.Evidence;
using ServiceRules.Formats.Assessments;

namespace ServiceRules.Application.Ledger;

/// <summary>
/// The kept contents that name a person: documents that have the identity as a word of theirs (also in registers frozen beside a
/// record: attendance, certificates, owners of locks, stays elsewhere), what is said of them in sentences, and reports that carry
/// any of these.
/// </summary>
internal static class WhereNamed
{
    /// <summary>The contents, in the order of their digests.</summary>
    public static List<ContentHash> In(ILedgerReading log, string person)
    {
        // As contents spell it: another writer of JSON may escape what the canonical form does not.
        var named = CanonicalForm.Of(JsonSerializer.SerializeToUtf8Bytes(person)).Bytes;
        var found = log.Contents()
            .Where(hash => log.Content(hash) is { } bytes && IsIn(bytes, named, person))
            .Select(hash => hash.ToString())
            .ToHashSet(StringComparer.Ordinal);
        var carried = new HashSet<string>(StringComparer.Ordinal);
        // A report is compressed, so that it is found by what it tells; entries come in the order in which they rest on each other.
        foreach (var stored in log.Entries(0))
        {
            if (!EntryReading.TryRead(stored, out var entry, out _) || entry.Entry.Of is not { } of)
            {
                continue;
            }

            var content = entry.Entry.Content;
            if (found.Contains(of) || carried.Contains(of))
            {
                found.Add(content);
            }
            else if (ContextOf(log, content) is { } context && found.Contains(context))
            {
                // Its report carries the registers; itself it may say of somebody what they say.
                carried.Add(content);
                if (Says(log, content, person))
                {
                    found.Add(content);
                }
            }
        }

        return
        [
            .. found
                .Order(StringComparer.Ordinal)
                .Select(text => ContentHash.TryParse(text, out var hash) ? hash : default),
        ];
    }

    /// <summary>Whether one content names a person, as what has the identity for a value or a word of it.</summary>
    public static bool Names(ReadOnlyMemory<byte> content, string person) =>
        IsIn(content, CanonicalForm.Of(JsonSerializer.SerializeToUtf8Bytes(person)).Bytes, person);

    /// <summary>
    /// Whether a text has the name as a word of its own: who is called <c>ann</c> is not named by <c>cannot</c>, nor
    /// <c>tech-0</c> by <c>tech-02</c>.
    /// </summary>
    public static bool IsWordOf(string text, string person, StringComparison comparison)
    {
        for (
            var at = text.IndexOf(person, comparison);
            at >= 0;
            at = text.IndexOf(person, at + 1, comparison)
        )
        {
            if (!GoesOn(text[..at].Reverse()) && !GoesOn(text[(at + person.Length)..]))
            {
                return true;
            }
        }

        return false;
    }

    // Words that people write may be names of others; one with a digit or a mark in it is hardly one.
    private static bool IsIn(ReadOnlyMemory<byte> content, ReadOnlyMemory<byte> named, string person) =>
        content.Span.IndexOf(named.Span) >= 0
        || (
            !person.All(char.IsLetter)
            && content.Span.IndexOf(Encoding.UTF8.GetBytes(person)) >= 0
            && IsWordOf(Encoding.UTF8.GetString(content.Span), person, StringComparison.Ordinal)
        );

    private static bool Says(ILedgerReading log, string content, string person) =>
        Kept(log, content) is { } bytes
        && IsWordOf(Encoding.UTF8.GetString(bytes.Span), person, StringComparison.Ordinal);

    private static string? ContextOf(ILedgerReading log, string content) =>
        Kept(log, content) is { } bytes ? AssessmentFormat.DigestsOf(bytes.Span)?.Context : null;

    private static ReadOnlyMemory<byte>? Kept(ILedgerReading log, string content) =>
        ContentHash.TryParse(content, out var hash) ? log.Content(hash) : null;

    // Marks within an identity also end sentences: they belong to it where a letter or digit is behind them.
    private static bool GoesOn(IEnumerable<char> text) =>
        text.SkipWhile(symbol => symbol is '.' or '-' or '_').Take(1).Any(char.IsLetterOrDigit);
}
