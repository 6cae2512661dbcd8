using ServiceRules.Application.Importing;
using ServiceRules.Host.Problems;

namespace ServiceRules.Host.Inbox;

/// <summary>One thing that is wrong with a table.</summary>
/// <param name="Row">The row, from 1; left out: the file.</param>
/// <param name="Column">The heading of the column; left out: the row.</param>
/// <param name="What">What is wrong.</param>
/// <param name="Found">What stands there.</param>
/// <param name="Accepted">What would be accepted.</param>
/// <param name="Pointer">Where it would stand in the record.</param>
internal sealed record ToldRow(
    int? Row,
    string? Column,
    string What,
    string Found,
    string Accepted,
    string? Pointer
)
{
    private const int ShownMost = 120;

    public static ToldRow Of(RowProblem problem) =>
        new(
            problem.Row > 0 ? problem.Row : null,
            problem.Column is { } column ? Shortened.To(column, ShownMost) : null,
            problem.What,
            Shortened.To(problem.Found, ShownMost),
            problem.Accepted,
            problem.Pointer
        );

    public static IReadOnlyList<ToldRow>? All(IReadOnlyCollection<RowProblem> problems) =>
        problems.Count == 0 ? null : [.. problems.Take(TableLimits.ProblemsTold).Select(Of)];
}
