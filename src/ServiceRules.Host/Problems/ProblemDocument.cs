namespace ServiceRules.Host.Problems;

/// <summary>A problem document of RFC 9457, with what this interface adds to it.</summary>
/// <param name="Type">The kind of problem, under a name that stays.</param>
/// <param name="Title">The kind in words that are always the same.</param>
/// <param name="Status">The status of the answer.</param>
/// <param name="Detail">What is wrong here.</param>
/// <param name="Accepted">What would be accepted.</param>
/// <param name="Problems">Everything that is wrong with a document, in its order.</param>
/// <param name="Differences">Where what was sent is not what stands.</param>
/// <param name="Untold">How many further ones there are.</param>
internal sealed record ProblemDocument(
    string Type,
    string Title,
    int Status,
    string Detail,
    string? Accepted = null,
    IReadOnlyList<ToldProblem>? Problems = null,
    IReadOnlyList<ToldDifference>? Differences = null,
    int? Untold = null
)
{
    public const string MediaType = "application/problem+json";
}
