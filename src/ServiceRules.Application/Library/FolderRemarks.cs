using System.Collections.Immutable;
using System.Globalization;
using ServiceRules.Formats.Json;
using ServiceRules.Formats.Json.Source;
using ServiceRules.Rules.Diagnostics;

namespace ServiceRules.Application.Library;

/// <summary>Gathers what is wrong with the files of a folder, and looks up lines and columns.</summary>
internal sealed class FolderRemarks
{
    private readonly List<Diagnostic> all = [];
    private readonly Dictionary<string, SourceDocument> documents = new(StringComparer.Ordinal);

    public bool IsEmpty => all.Count == 0;

    public void Keep(string file, SourceDocument document) => documents[file] = document;

    public void Add(string code, string file, string what, string right) =>
        all.Add(
            new()
            {
                Code = code,
                Level = DiagnosticLevel.Error,
                File = file,
                Pointer = "",
                What = what,
                Right = right,
            }
        );

    public void Add(string file, ProblemReport problems)
    {
        foreach (Problem problem in problems.Told)
        {
            string found = problem.Found.Length > 0 ? $"; found `{problem.Found}`" : "";
            all.Add(
                new()
                {
                    Code = problem.Code,
                    Level = DiagnosticLevel.Error,
                    File = file,
                    Pointer = problem.Pointer,
                    Line = problem.Line,
                    Column = problem.Column,
                    What = problem.What + found,
                    Right = problem.Accepted,
                }
            );
        }

        if (problems.Untold > 0)
        {
            string more = string.Create(CultureInfo.InvariantCulture, $"{problems.Untold} more problems");
            Add(
                DiagnosticCode.TooMuch,
                file,
                $"this file has {more} than are told one by one",
                "the ones told mended first"
            );
        }
    }

    public void Add(IEnumerable<Diagnostic> found) => all.AddRange(found.Select(Located));

    public ImmutableArray<Diagnostic> InOrder() =>
        [
            .. all.OrderBy(remark => remark.File, StringComparer.Ordinal)
                .ThenBy(remark => remark.Line)
                .ThenBy(remark => remark.Column)
                .ThenBy(remark => remark.Code, StringComparer.Ordinal),
        ];

    /// <summary>Where a place of a file stands in its text; the beginning when the file is not known.</summary>
    public SourcePosition PositionOf(string file, string pointer) =>
        documents.TryGetValue(file, out SourceDocument? document)
            ? document.PositionOf(JsonPointer.Of(pointer))
            : new(1, 1);

    private Diagnostic Located(Diagnostic remark)
    {
        if (!documents.TryGetValue(remark.File, out SourceDocument? document))
        {
            return remark;
        }

        SourcePosition position = document.PositionOf(JsonPointer.Of(remark.Pointer));
        return remark with { Line = position.Line, Column = position.Column };
    }
}
