using System.Data.Common;
using ServiceRules.Storage.Sql;

namespace ServiceRules.Storage.Postgres;

/// <summary>What guards the rows of a database, or finds them, against what the scripts make.</summary>
internal static class PostgresSchema
{
    private static readonly (string Kind, string Name)[] Shipped =
    [
        ("trigger", "entry_stays"),
        ("trigger", "entry_keeps"),
        ("trigger", "account_act_stays"),
        ("trigger", "account_act_keeps"),
        ("trigger", "rule_activation_stays"),
        ("trigger", "rule_activation_keeps"),
        ("index", "entry_by_subject"),
        ("index", "record_row_by_record"),
        ("index", "record_row_by_site"),
        ("index", "record_row_by_machine"),
        ("index", "unit_row_by_unit"),
        ("index", "finding_row_by_rule"),
        ("index", "finding_row_by_verdict"),
        ("index", "answered_key_by_age"),
        ("index", "answered_key_by_record"),
        ("index", "record_row_by_content"),
        ("index", "record_row_by_assessment"),
        ("index", "shown_row_by_entry"),
        ("index", "notice_waiting"),
        ("index", "account_act_by_about"),
        ("index", "account_elsewhere"),
        ("index", "notice_given_up"),
        ("index", "notice_renewed"),
        ("index", "notice_by_site"),
        ("index", "export_job_by_caller"),
        ("index", "site_waiver_by_site"),
        ("index", "record_row_by_record_of_any_case"),
        ("index", "record_row_by_machine_of_any_case"),
        ("index", "unit_row_by_unit_of_any_case"),
    ];

    /// <summary>What was taken away or switched off: each told.</summary>
    public static IEnumerable<string> Missing(DbConnection connection)
    {
        var found = connection.Rows(
            """
            SELECT 'trigger', tgname::text FROM pg_trigger
            WHERE tgrelid IN ('entry'::regclass, 'account_act'::regclass, 'rule_activation'::regclass) AND tgenabled IN ('O', 'A')
            UNION ALL
            SELECT 'index', indexname::text FROM pg_indexes WHERE schemaname = current_schema()
            """,
            row => (Kind: row.Text(0), Name: row.Text(1))
        );
        return Shipped.Except(found).Select(part => $"its {part.Kind} `{part.Name}` is missing");
    }
}
