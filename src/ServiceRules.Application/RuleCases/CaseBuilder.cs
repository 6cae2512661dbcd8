using System.Collections.Immutable;
using System.Text;
using System.Text.Json.Nodes;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Formats.Cases;
using ServiceRules.Formats.Json;
using ServiceRules.Formats.Json.Source;
using ServiceRules.Formats.Records;
using ServiceRules.Formats.Registers;
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
            || Patched("record", fixture.Record, patch, RecordFormat.Current, out problem)
                is not var (record, document)
            || Patched("context", fixture.Context, contextPatch, ContextFormat.Current, out problem)
                is not var (context, _)
        )
        {
            return null;
        }

        ProblemReport unknown = RecordReferences.Check(record, document, book);
        problem = unknown.IsEmpty ? "" : Refused("record", unknown);
        return unknown.IsEmpty ? (record, context) : null;
    }

    private static (T Value, SourceDocument Document)? Patched<T>(
        string what,
        JsonObject document,
        ImmutableArray<PatchStep> patch,
        DocumentFormat<T> format,
        out string problem
    )
        where T : notnull
    {
        if (JsonPatch.Applied(document, patch, out problem) is not { } patched)
        {
            problem = $"the patch of the {what} does not fit: {problem}";
            return null;
        }

        byte[] bytes = Encoding.UTF8.GetBytes(patched.ToJsonString());
        if (format.Read(bytes).TryGet(out T? value, out SourceDocument? source, out ProblemReport problems))
        {
            return (value, source);
        }

        problem = Refused(what, problems);
        return null;
    }

    // Lines of a text that nobody sees would only mislead.
    private static string Refused(string what, ProblemReport problems) =>
        $"the patched {what} is refused: {string.Join("; ", problems.Told.Select(Said))}";

    private static string Said(Problem problem) =>
        $"{problem.Pointer}: {problem.What}{(problem.Found.Length > 0 ? $", found `{problem.Found}`" : "")}";
}
