using System.Text;
using System.Text.Json;

namespace ServiceRules.Formats.Json.Source;

/// <summary>Words for a syntax error, from where the platform's reader stopped and what it had read last.</summary>
internal static class SyntaxWords
{
    public static (string What, string Found, string Accepted) Of(
        ReadOnlySpan<byte> bytes,
        int at,
        JsonTokenType last,
        SourceKind? holder
    )
    {
        string next = Next(last, holder);
        if (at >= bytes.Length)
        {
            return ("the document ends too early", "end of document", next);
        }

        Rune.DecodeFromUtf8(bytes[at..], out Rune found, out _);
        char before = Before(bytes, at);
        string shown = found.ToString();
        return found.Value switch
        {
            '\'' => ("this is not JSON", shown, "text and names in double quotes"),
            '/' or '#' => ("JSON has no comments", shown, next),
            '}' or ']' when before == ',' => (
                "there is a comma after the last one",
                shown,
                "no comma before it"
            ),
            < ' ' when found.Value is not ('\t' or '\n' or '\r') || last is not JsonTokenType.None => (
                "this is not JSON",
                shown,
                next + "; inside a text a line break is written \\n and a tab \\t"
            ),
            _ when bytes[Math.Max(0, at - 1)] == '\\' => (
                "this escape is not known",
                "\\" + shown,
                "\\n, \\t, \\\", \\\\ or \\u with four hexadecimal digits"
            ),
            _ => ("this is not JSON", shown, next),
        };
    }

    private static string Next(JsonTokenType last, SourceKind? holder) =>
        (last, holder) switch
        {
            (JsonTokenType.None, _) => "a JSON object",
            (JsonTokenType.PropertyName, _) =>
                "`:` and a value: text in double quotes, a number, true, false, an object or a list",
            (_, null) => "nothing after the end of the document",
            (JsonTokenType.StartObject, _) => "a name in double quotes, or `}`",
            (JsonTokenType.StartArray, _) => "a value, or `]`",
            (_, SourceKind.Object) => "`,` and a name in double quotes, or `}`",
            _ => "`,` and a value, or `]`",
        };

    private static char Before(ReadOnlySpan<byte> bytes, int at)
    {
        int back = at - 1;
        while (back >= 0 && bytes[back] is (byte)' ' or (byte)'\t' or (byte)'\r' or (byte)'\n')
        {
            back--;
        }

        return back >= 0 ? (char)bytes[back] : '\0';
    }
}
