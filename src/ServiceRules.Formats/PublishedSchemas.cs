using ServiceRules.Formats.Assessments;
using ServiceRules.Formats.Cases;
using ServiceRules.Formats.Ledger;
using ServiceRules.Formats.Packs;
using ServiceRules.Formats.Records;
using ServiceRules.Formats.Registers;
using ServiceRules.Formats.SafeWork;
using ServiceRules.Formats.Sheets;

namespace ServiceRules.Formats;

/// <summary>The JSON Schemas that editors and other programs use: file name to text.</summary>
public static class PublishedSchemas
{
    public static IReadOnlyList<(string File, string Text)> All { get; } =
    [
        ("service-record.schema.json", RecordFormat.Current.Schema()),
        ("limit-sheet.schema.json", LimitSheetFormat.Current.Schema()),
        ("rule-pack.schema.json", RulePackFormat.Head.Schema()),
        ("rules.schema.json", RulePackFormat.Rules.Schema()),
        ("citations.schema.json", RulePackFormat.Citations.Schema()),
        ("rule-cases.schema.json", RuleCasesFormat.Current.Schema()),
        ("rule-book.schema.json", RulePackFormat.Book.Schema()),
        ("setting-order.schema.json", SettingOrderFormat.Current.Schema()),
        ("site.schema.json", SiteFormat.Site.Schema()),
        ("registers.schema.json", SiteFormat.Registers.Schema()),
        ("procedure.schema.json", SiteFormat.Procedure.Schema()),
        ("assessment-context.schema.json", ContextFormat.Current.Schema()),
        ("assessment.schema.json", AssessmentFormat.Current.Schema()),
        ("waiver.schema.json", WaiverFormat.Current.Schema()),
        ("ledger-entry.schema.json", LedgerEntryFormat.Current.Schema()),
        ("safe-work-jobs.schema.json", SafeWorkJobsFormat.Current.Schema()),
        ("erasure.schema.json", ErasureFormat.Current.Schema()),
    ];
}
