using System.Globalization;
using System.Text.Json.Nodes;
using ServiceRules.Formats.Json;
using ServiceRules.Host.Pages.Filed;
using ServiceRules.Host.Problems;

namespace ServiceRules.Host.Pages.Bench;

/// <summary>What is wrong with a record, told at the fields of its form; what has no field there is told by its place.</summary>
/// <param name="Groups">The fields, each with what is wrong with it.</param>
/// <param name="Others">What has no field.</param>
internal sealed record FieldProblems(IReadOnlyList<FieldGroup> Groups, IReadOnlyList<string> Others)
{
    private const int FoundLength = 64;

    /// <param name="groups">The fields of the form.</param>
    /// <param name="problems">What is wrong.</param>
    /// <param name="record">What the page shows; null where it is no record.</param>
    /// <param name="isShown">Whether it is, line by line, what was read.</param>
    public static FieldProblems Of(
        IReadOnlyList<FieldGroup> groups,
        ProblemReport problems,
        JsonNode? record,
        bool isShown
    )
    {
        var known = groups
            .SelectMany(group => group.Fields)
            .Select(field => field.Pointer)
            .ToHashSet(StringComparer.Ordinal);
        var byField = problems.Told.ToLookup(problem => problem.Pointer, StringComparer.Ordinal);
        return new(
            [
                .. groups.Select(group =>
                    group with
                    {
                        Fields =
                        [
                            .. group.Fields.Select(field =>
                                byField[field.Pointer].FirstOrDefault() is { } problem
                                    ? field with
                                    {
                                        Wrong = AtField(field, problem),
                                    }
                                    : field
                            ),
                        ],
                    }
                ),
            ],
            [
                .. problems
                    .Told.Where(problem => !known.Contains(problem.Pointer))
                    .Select(problem => Elsewhere(problem, record, isShown)),
                .. problems.Untold > 0
                    ? new[] { string.Create(CultureInfo.InvariantCulture, $"and {problems.Untold} more") }
                    : [],
            ]
        );
    }

    private static string AtField(RecordField field, Problem problem)
    {
        if (field.Shown.Length == 0)
        {
            return "To be filled in.";
        }

        if (field.Shown.Contains(',', StringComparison.Ordinal) && field.Shown.Any(char.IsAsciiDigit))
        {
            return $"{Shortened.To(field.Shown, FoundLength)} is not read; accepted: {Shortened.To(field.Shown.Replace(',', '.'), FoundLength)}";
        }

        return problem.What + (problem.Accepted.Length == 0 ? "" : $"; accepted: {problem.Accepted}");
    }

    private static string Elsewhere(Problem problem, JsonNode? record, bool isShown) =>
        record is null || problem.Pointer.Length == 0
            ? problem.ToString()
            : $"{PlaceWords.Of(record, Shortened.To(problem.Pointer, ReadLimits.PointerLength))}: "
                + (
                    isShown
                        ? problem.ToString()
                        : problem.What
                            + (problem.Accepted.Length == 0 ? "" : $"; accepted: {problem.Accepted}")
                );
}
