using Microsoft.AspNetCore.Http;
using ServiceRules.Application.Ledger;
using ServiceRules.Formats.Json;

namespace ServiceRules.Host.Problems;

/// <summary>Answers that something is wrong, with every problem found.</summary>
internal static class Complaint
{
    // More than anyone compares by eye; the records themselves can be compared.
    private const int DifferencesMost = 100;

    // More than anyone mends before sending it again.
    private const int ProblemsMost = 500;

    private static readonly string[] NoJson =
    [
        ProblemCode.Encoding,
        ProblemCode.Syntax,
        ProblemCode.Depth,
        ProblemCode.Values,
    ];

    public static IResult Of(ProblemKind kind, string detail, string? accepted = null) =>
        Told(Document(kind, detail, accepted));

    /// <summary>A document that cannot be read, or contradicts itself.</summary>
    public static IResult Of(ProblemReport problems) => Told(Document(problems));

    /// <summary>Files of which something is wrong.</summary>
    public static IResult Of(IReadOnlyList<ToldProblem> problems) => Told(Document(problems));

    public static IResult Of(ProblemDocument document) => Told(document);

    /// <summary>What is sent is not what stands.</summary>
    public static IResult Of(FilingRefusal refusal) => Told(Document(refusal));

    public static ProblemDocument Document(ProblemKind kind, string detail, string? accepted = null) =>
        new(kind.Type, kind.Title, kind.Status, detail, accepted);

    public static ProblemDocument Document(IReadOnlyList<ToldProblem> problems) =>
        Document(ProblemKind.Refused, $"{problems[0].File}: {problems[0].What}", problems[0].Accepted) with
        {
            Problems = [.. problems.Take(ProblemsMost)],
            Untold = Math.Max(0, problems.Count - ProblemsMost),
        };

    public static ProblemDocument Document(ProblemReport problems)
    {
        var first = problems.Told[0];
        var kind =
            first.Code == ProblemCode.Size ? ProblemKind.TooLarge
            : NoJson.Contains(first.Code) ? ProblemKind.Unreadable
            : ProblemKind.Refused;
        return Document(kind, first.ToString()) with
        {
            Problems = [.. problems.Told.Select(ToldProblem.Of)],
            Untold = problems.Untold,
        };
    }

    public static ProblemDocument Document(FilingRefusal refusal) =>
        Document(
            refusal.IsUnfit ? ProblemKind.Refused : ProblemKind.Conflict,
            refusal.What,
            refusal.Accepted
        ) with
        {
            Differences = [.. refusal.Differences.Take(DifferencesMost).Select(ToldDifference.Of)],
            Untold = Math.Max(0, refusal.Differences.Length - DifferencesMost),
        };

    /// <summary>The store could not do it.</summary>
    public static IResult Of(StoreTrouble trouble)
    {
        var (kind, detail) = StoreProblem.Of(trouble);
        return Of(kind, detail);
    }

    private static ProblemResult Told(ProblemDocument document) => new(document);
}
