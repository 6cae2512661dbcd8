using ServiceRules.Formats.Json;

namespace ServiceRules.Host.Problems;

/// <summary>One thing that is wrong with a document, as an answer tells it.</summary>
internal sealed record ToldProblem(
    string Code,
    string Pointer,
    int Line,
    int Column,
    string What,
    string Found,
    string Accepted
)
{
    public static ToldProblem Of(Problem problem) =>
        new(
            problem.Code,
            Shortened.To(problem.Pointer, ReadLimits.PointerLength),
            problem.Line,
            problem.Column,
            problem.What,
            problem.Found,
            problem.Accepted
        );
}
