using System.Buffers;
using System.Globalization;

namespace ServiceRules.Formats.Json.Shapes;

/// <summary>
/// Characters that cannot be seen and change how a report reads: controls, line separators, direction overrides and
/// the byte order mark. Tab and line breaks are told apart, since words on several lines may hold them.
/// </summary>
internal static class UnseenCharacters
{
    private static readonly (char First, char Last)[] Ranges =
    [
        ('\u0000', '\u0008'),
        ('\u000B', '\u000C'),
        ('\u000E', '\u001F'),
        ('\u007F', '\u009F'),
        ('\u2028', '\u2029'),
        ('\u202A', '\u202E'),
        ('\u2066', '\u2069'),
        ('\uFEFF', '\uFEFF'),
    ];

    private static readonly SearchValues<char> Unseen = SearchValues.Create([.. Ranges.SelectMany(All)]);
    private static readonly SearchValues<char> Breaks = SearchValues.Create("\t\n\r");
    private static readonly SearchValues<char> Blanks = SearchValues.Create(" \t\n\r");

    /// <summary>The same characters inside a class of a regular expression.</summary>
    public static string Class { get; } =
        string.Concat(
            Ranges.Select(range =>
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"\\u{(int)range.First:X4}-\\u{(int)range.Last:X4}"
                )
            )
        );

    /// <summary>Whether a text has something to see and nothing unseen but, where they may stand, tabs and line breaks.</summary>
    public static bool AreAbsentFrom(string text, bool allowBreaks) =>
        !text.AsSpan().ContainsAny(Unseen)
        && (allowBreaks || !text.AsSpan().ContainsAny(Breaks))
        && text.AsSpan().ContainsAnyExcept(Blanks);

    private static IEnumerable<char> All((char First, char Last) range) =>
        Enumerable.Range(range.First, range.Last - range.First + 1).Select(code => (char)code);
}
