namespace ServiceRules.Formats.Json;

/// <summary>One thing that is wrong with a document, told so that its author can mend it without asking.</summary>
/// <param name="Code">One of <see cref="ProblemCode"/>.</param>
/// <param name="Pointer">Where, as a JSON pointer (RFC 6901); empty for the whole document.</param>
/// <param name="Line">The line, counted from 1.</param>
/// <param name="Column">
/// The column, counted from 1 in characters (Unicode code points; a tab is one), as an editor counts them.
/// A byte order mark is not counted.
/// </param>
/// <param name="What">What is wrong, in lower case, without a full stop.</param>
/// <param name="Found">The value found, shortened and with control characters made visible; empty when nothing was there.</param>
/// <param name="Accepted">What would be accepted.</param>
public sealed record Problem(
    string Code,
    string Pointer,
    int Line,
    int Column,
    string What,
    string Found,
    string Accepted
)
{
    /// <summary>The whole sentence, as a command line shows it.</summary>
    public override string ToString()
    {
        string place =
            Pointer.Length == 0 ? "" : $" at {FoundText.Within(Pointer, ReadLimits.PointerLength)}";
        string found = Found.Length == 0 ? "" : $"; found `{Found}`";
        string accepted = Accepted.Length == 0 ? "" : $"; accepted: {Accepted}";
        return string.Create(
            System.Globalization.CultureInfo.InvariantCulture,
            $"line {Line}, column {Column}{place}: {What}{found}{accepted}"
        );
    }
}
