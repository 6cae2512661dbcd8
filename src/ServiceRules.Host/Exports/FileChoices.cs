using ServiceRules.Formats.Exports;
using ServiceRules.Host.Pages.Forms;

namespace ServiceRules.Host.Exports;

/// <summary>What there is to be had as a file, as a page offers it.</summary>
internal static class FileChoices
{
    /// <summary>The signed report of a period.</summary>
    public const string Report = "safe-work.pdf";

    private static readonly (ExportedList What, ExportedForm As, FieldChoice Choice)[] Known =
    [
        (ExportedList.SafeWork, ExportedForm.Pdf, new(Report, "Signed report of safe work (PDF)")),
        (ExportedList.Records, ExportedForm.Csv, new("records.csv", "List of records (CSV)")),
        (ExportedList.Units, ExportedForm.Csv, new("units.csv", "List of units (CSV)")),
        (ExportedList.Findings, ExportedForm.Csv, new("findings.csv", "List of findings (CSV)")),
        (ExportedList.Records, ExportedForm.Jsonl, new("records.jsonl", "List of records (JSON lines)")),
        (ExportedList.Units, ExportedForm.Jsonl, new("units.jsonl", "List of units (JSON lines)")),
        (ExportedList.Findings, ExportedForm.Jsonl, new("findings.jsonl", "List of findings (JSON lines)")),
        (
            ExportedList.Documents,
            ExportedForm.Jsonl,
            new("documents.jsonl", "Records whole, with what judging them came to (JSON lines)")
        ),
    ];

    public static IReadOnlyList<FieldChoice> All { get; } = [.. Known.Select(one => one.Choice)];

    /// <summary>What a request says, and as what; null: there is no such choice.</summary>
    public static (string What, string As)? WordsOf(string choice) =>
        All.Any(one => one.Value == choice) && choice.Split('.') is [var what, var form]
            ? (what, form)
            : null;

    public static string TextOf(ExportRequest request) =>
        Array.Find(Known, one => one.What == request.What && one.As == request.As).Choice.Text;
}
