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
        var told = problems
            .Told.DistinctBy(problem => problem.Pointer)
            .ToDictionary(problem => problem.Pointer, StringComparer.Ordinal);
        var untold = problems.Untold;
        List<FieldGroup> marked = [];
        foreach (var group in groups)
        {
            List<RecordField> fields = [];
            foreach (var field in group.Fields)
            {
                var wrong = told.TryGetValue(field.Pointer, out var problem) ? AtField(field, problem) : null;
                // A reader that has told enough counts the others, and a form has fields for many of them.
                if (
                    wrong is null
                    && isShown
                    && (problems.Untold > 0 || field.Shown.Length > 0)
                    && Plainly(field) is { } plain
                )
                {
                    wrong = plain;
                    untold = Math.Max(0, untold - 1);
                }

                fields.Add(field with { Wrong = wrong });
            }

            marked.Add(group with { Fields = fields });
        }

        var known = groups.SelectMany(group => group.Fields).Select(field => field.Pointer);
        return new(
            marked,
            [
                .. problems
                    .Told.ExceptBy(known, problem => problem.Pointer)
                    .Select(problem => Elsewhere(problem, record, isShown)),
                .. untold > 0
                    ? new[] { string.Create(CultureInfo.InvariantCulture, $"and {untold} more") }
                    : [],
            ]
        );
    }

    // What anyone sees to be wrong.
    private static string? Plainly(RecordField field) =>
        field.Shown.Length == 0 ? "To be filled in."
        : field.Unit.Length > 0
        && field.Shown.Contains(',', StringComparison.Ordinal)
        && field.Shown.All(sign => char.IsAsciiDigit(sign) || sign is ',' or '-' or '+')
            ? $"{Shortened.To(field.Shown, FoundLength)} is not read; accepted: {Shortened.To(field.Shown.Replace(',', '.'), FoundLength)}"
        : null;

    private static string AtField(RecordField field, Problem problem) =>
        Plainly(field)
        ?? problem.What + (problem.Accepted.Length == 0 ? "" : $"; accepted: {problem.Accepted}");

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
