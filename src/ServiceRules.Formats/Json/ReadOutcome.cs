using System.Diagnostics.CodeAnalysis;
using ServiceRules.Formats.Json.Source;

namespace ServiceRules.Formats.Json;

/// <summary>What came of reading a document: its value and where each part of it stands, or every problem found.</summary>
public sealed record ReadOutcome<T>
    where T : notnull
{
    private readonly T? value;
    private readonly SourceDocument? source;

    private ReadOutcome(T? value, SourceDocument? source, ProblemReport problems)
    {
        this.value = value;
        this.source = source;
        Problems = problems;
    }

    /// <summary>Empty when the document was accepted.</summary>
    public ProblemReport Problems { get; }

    public static ReadOutcome<T> Accepted(T value, SourceDocument source) =>
        new(value, source, ProblemReport.None);

    public static ReadOutcome<T> Refused(ProblemReport problems) => new(default, null, problems);

    public bool TryGet([NotNullWhen(true)] out T? accepted, out ProblemReport problems) =>
        TryGet(out accepted, out _, out problems);

    /// <summary>Gives the value together with the document it came from, which tells the place of any JSON pointer.</summary>
    public bool TryGet(
        [NotNullWhen(true)] out T? accepted,
        [NotNullWhen(true)] out SourceDocument? document,
        out ProblemReport problems
    )
    {
        accepted = value;
        document = source;
        problems = Problems;
        return source is not null;
    }
}
