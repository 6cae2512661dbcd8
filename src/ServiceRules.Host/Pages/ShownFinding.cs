using System.Text.Json;
using ServiceRules.Formats.Assessments;
using ServiceRules.Formats.Records;
using ServiceRules.Reporting.Reports.Words;

namespace ServiceRules.Host.Pages;

/// <summary>A finding as a page tells it, out of an assessment of whatever version of the verdict semantics.</summary>
public sealed record ShownFinding(
    string Subject,
    string Rule,
    string Verdict,
    string Effect,
    string Statement
)
{
    /// <summary>What to turn or to do about it; empty where the assessment does not say.</summary>
    public IReadOnlyList<string> ToDo { get; init; } = [];

    private static readonly string[] Order = ["stop", "hold", "advise"];

    /// <summary>What is not met or not proven, the gravest first.</summary>
    /// <param name="assessment">The assessment, as far as it may be told.</param>
    /// <param name="record">What was judged, in whose units it is said what to turn; null: it is not kept.</param>
    public static IReadOnlyList<ShownFinding> Open(
        ReadOnlyMemory<byte> assessment,
        ReadOnlyMemory<byte>? record
    )
    {
        using var document = JsonDocument.Parse(assessment);
        var toDo = ToDoOf(assessment, record);
        return document.RootElement.TryGetProperty("findings", out var findings)
            ?
            [
                .. findings
                    .EnumerateArray()
                    .Select(Of)
                    .Select(finding =>
                        finding with
                        {
                            ToDo = toDo.GetValueOrDefault((finding.Subject, finding.Rule), []),
                        }
                    )
                    .Where(finding => finding.Verdict is "not-met" or "unproven")
                    .OrderBy(finding => (uint)Array.IndexOf(Order, finding.Effect))
                    .ThenBy(finding => finding.Subject, StringComparer.Ordinal),
            ]
            : [];
    }

    public static string WordOf(string verdict) => verdict == "not-met" ? "not met" : "not proven";

    public static string WordOfDisposition(string? disposition) =>
        disposition switch
        {
            "release" => "may go out",
            "hold" => "hold",
            "stop" => "stop: make safe first; on a closed job, safe work not shown",
            _ => "no longer kept",
        };

    // Of assessments and records that this version reads; others are told without.
    private static Dictionary<(string Subject, string Rule), IReadOnlyList<string>> ToDoOf(
        ReadOnlyMemory<byte> assessment,
        ReadOnlyMemory<byte>? record
    )
    {
        Dictionary<(string, string), IReadOnlyList<string>> toDo = [];
        if (
            record is { } bytes
            && RecordFormat.Current.Read(bytes).TryGet(out var read, out _, out _)
            && AssessmentFormat.Current.Read(assessment).TryGet(out var judged, out _)
        )
        {
            foreach (var finding in judged.Findings.Where(finding => finding.Remedy is not null))
            {
                toDo[(finding.Subject.Key, finding.Rule)] =
                [
                    .. RemedyText.Of(text => text, finding.Remedy, ReadingUnits.Of(read, finding)),
                ];
            }
        }

        return toDo;
    }

    private static ShownFinding Of(JsonElement finding) =>
        new(
            Text(finding, "subject"),
            Text(finding, "rule"),
            Text(finding, "verdict"),
            Text(finding, "effect"),
            Text(finding, "statement")
        );

    private static string Text(JsonElement finding, string name) =>
        finding.TryGetProperty(name, out var text) ? text.GetString() ?? "" : "";
}
