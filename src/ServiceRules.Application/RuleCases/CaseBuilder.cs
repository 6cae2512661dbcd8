using System.Collections.Immutable;
using System.Text;
using System.Text.Json.Nodes;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Formats.Cases;
using ServiceRules.Formats.Json;
using ServiceRules.Formats.Records;
using ServiceRules.Formats.Registers;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;

namespace ServiceRules.Application.RuleCases;

/// <summary>Makes the record and the context that a case is judged on: the fixture's, patched and read as any other.</summary>
internal static class CaseBuilder
{
    /// <summary>The record and context, or nothing with why not.</summary>
    public static (ServiceRecord Record, AssessmentContext Context)? Build(
        Fixture fixture,
        ImmutableArray<PatchStep> patch,
        ImmutableArray<PatchStep> contextPatch,
        RuleBook book,
        out string problem
    )
    {
        problem = fixture.Problem;
        if (
            problem.Length > 0
            || Patched("record", fixture.Record, patch, RecordFormat.Current, out problem) is not { } record
            || Patched("context", fixture.Context, contextPatch, ContextFormat.Current, out problem)
                is not { } context
        )
        {
            return null;
        }

        ImmutableArray<string> unknown = FrameBuilder.UnknownSheets(record, book);
        if (!unknown.IsEmpty)
        {
            problem = $"the record names a limit sheet at {unknown[0]} that is not in this folder";
            return null;
        }

        return (record, context);
    }

    private static T? Patched<T>(
        string what,
        JsonObject document,
        ImmutableArray<PatchStep> patch,
        DocumentFormat<T> format,
        out string problem
    )
        where T : class
    {
        if (JsonPatch.Applied(document, patch, out problem) is not { } patched)
        {
            problem = $"the patch of the {what} does not fit: {problem}";
            return null;
        }

        byte[] bytes = Encoding.UTF8.GetBytes(patched.ToJsonString());
        if (format.Read(bytes).TryGet(out T? value, out ProblemReport problems))
        {
            return value;
        }

        problem = $"the patched {what} is refused: {string.Join("; ", problems.Told.Select(Said))}";
        return null;
    }

    // Lines of a text that nobody sees would only mislead.
    private static string Said(Problem problem) =>
        $"{problem.Pointer}: {problem.What}{(problem.Found.Length > 0 ? $", found `{problem.Found}`" : "")}";
}
