using ServiceRules.Formats.Assessments;
using ServiceRules.Formats.Cases;
using ServiceRules.Formats.Exports;
using ServiceRules.Formats.Imports;
using ServiceRules.Formats.Ledger;
using ServiceRules.Formats.Packs;
using ServiceRules.Formats.Records;
using ServiceRules.Formats.Registers;
using ServiceRules.Formats.SafeWork;
using ServiceRules.Formats.Sheets;

namespace ServiceRules.Formats;

/// <summary>The JSON Schemas that editors and other programs use: file name to text.</summary>
/// <remarks>
/// What a word means stands once, above it in the source; whoever publishes the schemas hands over what the compiler
/// wrote out of it.
/// </remarks>
public static class PublishedSchemas
{
    /// <param name="said">What a word of a closed vocabulary means, as hover text.</param>
    public static IReadOnlyList<(string File, string Text)> Of(Func<Enum, string?> said) =>
        [
            ("service-record.schema.json", RecordFormat.Current.Schema(said)),
            ("limit-sheet.schema.json", LimitSheetFormat.Current.Schema(said)),
            ("rule-pack.schema.json", RulePackFormat.Head.Schema(said)),
            ("rules.schema.json", RulePackFormat.Rules.Schema(said)),
            ("citations.schema.json", RulePackFormat.Citations.Schema(said)),
            ("rule-cases.schema.json", RuleCasesFormat.Current.Schema(said)),
            ("rule-book.schema.json", RulePackFormat.Book.Schema(said)),
            ("setting-order.schema.json", SettingOrderFormat.Current.Schema(said)),
            ("site.schema.json", SiteFormat.Site.Schema(said)),
            ("registers.schema.json", SiteFormat.Registers.Schema(said)),
            ("procedure.schema.json", SiteFormat.Procedure.Schema(said)),
            ("assessment-context.schema.json", ContextFormat.Current.Schema(said)),
            ("assessment.schema.json", AssessmentFormat.Current.Schema(said)),
            ("waiver.schema.json", WaiverFormat.Current.Schema(said)),
            ("ledger-entry.schema.json", LedgerEntryFormat.Current.Schema(said)),
            ("safe-work-jobs.schema.json", SafeWorkJobsFormat.Current.Schema(said)),
            ("import-mapping.schema.json", ImportMappingFormat.Current.Schema(said)),
            ("erasure.schema.json", ErasureFormat.Current.Schema(said)),
            ("export-request.schema.json", ExportRequestFormat.Current.Schema(said)),
            ("act.schema.json", LoggedActFormat.Current.Schema(said)),
            ("hold.schema.json", HoldFormat.Current.Schema(said)),
            ("retention.schema.json", RetentionFormat.Current.Schema(said)),
            ("expiry.schema.json", ExpiryFormat.Current.Schema(said)),
            ("comment.schema.json", CommentFormat.Current.Schema(said)),
        ];
}
