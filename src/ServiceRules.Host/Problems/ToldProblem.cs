using System.Text.Json;
using ServiceRules.Application.RuleCases;
using ServiceRules.Formats.Json;
using ServiceRules.Rules.Diagnostics;

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
    /// <summary>The file, where several were sent.</summary>
    public string? File { get; init; }

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

    public static ToldProblem Of(Diagnostic remark) =>
        new(
            remark.Code,
            Shortened.To(remark.Pointer, ReadLimits.PointerLength),
            remark.Line,
            remark.Column,
            remark.What,
            "",
            remark.Right
        )
        {
            File = remark.File,
        };

    /// <summary>A case that does not come out as it says.</summary>
    public static ToldProblem Of(CaseResult result) =>
        new(
            "case",
            result.Case.Pointer,
            result.Case.Line,
            result.Case.Column,
            $"the case `{result.Case.Case.Name}` of `{result.Case.Case.Rule}` comes out otherwise: {result.Told}",
            result.Found is { } found ? Word(found.ToString()) : "",
            Word(result.Case.Case.Expect.ToString())
        )
        {
            File = result.Case.File,
        };

    /// <summary>A fixture that may not go out as it stands.</summary>
    public static ToldProblem Of(FixtureResult fixture) =>
        new("fixture", "", 1, 1, string.Join("; ", fixture.Told.Take(5)), "", "a record with nothing wrong")
        {
            File = fixture.File,
        };

    private static string Word(string name) => JsonNamingPolicy.KebabCaseLower.ConvertName(name);
}
