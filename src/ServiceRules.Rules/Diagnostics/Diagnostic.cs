using System.Globalization;

namespace ServiceRules.Rules.Diagnostics;

/// <summary>One thing that is wrong (or odd) in a folder of rules, told so that its author can mend it without asking.</summary>
public sealed record Diagnostic
{
    // Places in sound files are far shorter; a name that somebody made up can be as long as the file.
    private const int LongestPlace = 200;

    /// <summary>One of <see cref="DiagnosticCode"/>, or the code of a problem that reading a document found.</summary>
    public required string Code { get; init; }

    /// <summary>Whether the rules load all the same.</summary>
    public required DiagnosticLevel Level { get; init; }

    /// <summary>The file, relative to the folder of rules, with forward slashes; empty for the folder itself.</summary>
    public required string File { get; init; }

    /// <summary>Where in the file, as a JSON pointer (RFC 6901); empty for the whole file.</summary>
    public required string Pointer { get; init; }

    /// <summary>The line, counted from 1; 0 until the place was looked up in the text.</summary>
    public int Line { get; init; }

    /// <summary>The column, counted from 1; 0 until the place was looked up in the text.</summary>
    public int Column { get; init; }

    /// <summary>What is wrong, with the value found, in lower case and without a full stop.</summary>
    public required string What { get; init; }

    /// <summary>What would be right.</summary>
    public required string Right { get; init; }

    /// <summary>The whole sentence, as a command line shows it.</summary>
    public override string ToString()
    {
        var place =
            Line > 0 ? string.Create(CultureInfo.InvariantCulture, $":{Line}:{Column}") : string.Empty;
        var shown = Pointer.Length > LongestPlace ? Pointer[..LongestPlace] + "…" : Pointer;
        var at = shown.Length > 0 ? $" at {shown}" : string.Empty;
        var right = Right.Length > 0 ? $"; right would be: {Right}" : string.Empty;
        var level = Level is DiagnosticLevel.Error ? "error" : "notice";
        var where = File.Length > 0 ? $"{File}{place}: " : string.Empty;
        return $"{where}{level} {Code}{at}: {What}{right}";
    }
}
