using ServiceRules.Formats.Json;
using ServiceRules.Formats.Json.Shapes;
using ServiceRules.Formats.Vocabulary;

namespace ServiceRules.Formats.Exports;

/// <summary>What somebody sends who wants a list as a file.</summary>
public static class ExportRequestFormat
{
    private const int NameMost = 200;

    /// <summary>A few words: nothing that is larger can be one.</summary>
    private static readonly ReadLimits Limits = new(64 * 1024, 1_000);

    private static readonly ObjectShape<ExportedRows> Rows = Shape.Object<ExportedRows>(
        "exported-rows",
        "Which rows; what is left out keeps nothing out.",
        o =>
        {
            var name = Shape.Line(NameMost);
            var site = o.Optional("site", name, "the site that judged", r => r.Site);
            var machine = o.Optional("machine", name, "the machine", r => r.Machine);
            var unit = o.Optional("unit", name, "the unit", r => r.Unit);
            var from = o.Optional("from", Terms.Day, "first day of jobs", r => r.From);
            var until = o.Optional("until", Terms.Day, "last day of jobs", r => r.Until);
            var disposition = o.Optional(
                "disposition",
                Among("release", "hold", "stop"),
                "whether a job, or in units and findings a unit, may go out",
                r => r.Disposition
            );
            var state = o.Optional(
                "state",
                Among("open", "signed-off", "followed-up"),
                "how far jobs are",
                r => r.State
            );
            var all = o.Defaulted(
                "allVersions",
                Shape.Flag,
                false,
                "versions that another one followed as well",
                r => r.AllVersions
            );
            var latest = o.Defaulted(
                "latestOnly",
                Shape.Flag,
                false,
                "of units alone: each as it stood at its last visit",
                r => r.LatestOnly
            );
            var rule = o.Optional("rule", name, "of findings alone: the rule", r => r.Rule);
            var verdict = o.Optional(
                "verdict",
                Among("met", "not-met", "unproven"),
                "of findings alone: the verdict",
                r => r.Verdict
            );
            var severity = o.Optional(
                "severity",
                Among("stop", "hold", "advise"),
                "of findings alone: the severity",
                r => r.Severity
            );
            var effect = o.Optional(
                "effect",
                name,
                "of findings alone: what they do to the disposition, in the word of the assessment",
                r => r.Effect
            );
            o.Check(
                v => !(v.Get(until) < v.Get(from)),
                until,
                "the last day is before the first",
                "that day or a later one"
            );
            return v => new ExportedRows
            {
                Site = v.Get(site),
                Machine = v.Get(machine),
                Unit = v.Get(unit),
                From = v.Get(from),
                Until = v.Get(until),
                Disposition = v.Get(disposition),
                State = v.Get(state),
                AllVersions = v.Get(all),
                LatestOnly = v.Get(latest),
                Rule = v.Get(rule),
                Verdict = v.Get(verdict),
                Severity = v.Get(severity),
                Effect = v.Get(effect),
            };
        }
    );

    private static readonly ObjectShape<ExportRequest> Root = Shape.Object<ExportRequest>(
        "export-request",
        "A list that is to be written to a file.",
        o =>
        {
            var what = o.Required(
                "what",
                Shape.Choice<ExportedList>("a list that can be written to a file"),
                "which list",
                r => r.What
            );
            var form = o.Required(
                "as",
                Shape.Choice<ExportedForm>("a kind of file"),
                "what kind of file",
                r => r.As
            );
            var filter = o.Optional("filter", Rows, "which rows; left out: all", r => r.Filter);
            o.Check(
                v => v.Get(what) != ExportedList.Documents || v.Get(form) == ExportedForm.Jsonl,
                form,
                "documents are no table",
                "jsonl"
            );
            o.Check(
                v => v.Get(what) == ExportedList.Units || v.Get(filter) is not { LatestOnly: true },
                filter,
                "`latestOnly` is of units alone",
                "a filter without it"
            );
            o.Check(
                v =>
                    v.Get(what) == ExportedList.Findings
                    || v.Get(filter) is null or { Rule: null, Verdict: null, Severity: null, Effect: null },
                filter,
                "`rule`, `verdict`, `severity` and `effect` are of findings alone",
                "a filter without them"
            );
            o.Check(
                v => (v.Get(what) == ExportedList.SafeWork) == (v.Get(form) == ExportedForm.Pdf),
                form,
                "a report of safe work is signed as pdf, and nothing else is",
                "pdf for safe-work, csv or jsonl for lists"
            );
            o.Check(
                v =>
                    v.Get(what) != ExportedList.SafeWork
                    || (
                        v.Get(filter) is { From: not null, Until: not null } rows
                        && rows
                            == new ExportedRows
                            {
                                Site = rows.Site,
                                From = rows.From,
                                Until = rows.Until,
                            }
                    ),
                filter,
                "a report is of a period, and of all that was done in it",
                "`from` and `until`, and `site` where there are several"
            );
            return v => new ExportRequest(v.Get(what), v.Get(form), v.Get(filter) ?? new());
        }
    );

    /// <summary>The version that is written today.</summary>
    public static DocumentFormat<ExportRequest> Current { get; } = new("export-request", 1, Limits, Root);

    private static JsonShape<string> Among(params string[] words) =>
        Shape.Text(1, NameMost, string.Join('|', words), string.Join(", ", words), words);
}
