using System.Text.Json;

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
    private static readonly string[] Order = ["stop", "hold", "advise"];

    /// <summary>What is not met or not proven, the gravest first.</summary>
    public static IReadOnlyList<ShownFinding> Open(ReadOnlyMemory<byte> assessment)
    {
        using var document = JsonDocument.Parse(assessment);
        return document.RootElement.TryGetProperty("findings", out var findings)
            ?
            [
                .. findings
                    .EnumerateArray()
                    .Select(Of)
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
