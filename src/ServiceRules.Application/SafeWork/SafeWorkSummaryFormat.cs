using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Formats.Json;
using ServiceRules.Formats.Json.Shapes;
using ServiceRules.Formats.SafeWork;
using ServiceRules.Formats.Vocabulary;
using ServiceRules.Rules.Model;

namespace ServiceRules.Application.SafeWork;

/// <summary>The summary of a period as JSON.</summary>
public static class SafeWorkSummaryFormat
{
    private static readonly JsonShape<int> Number = Shape.Whole(0, 1_000_000);

    private static readonly ObjectShape<SafeWorkSummary.Count> Totals = Shape.Object<SafeWorkSummary.Count>(
        "safe-work-totals",
        "How many jobs stand how.",
        o =>
        {
            var jobs = o.Required("jobs", Number, "jobs", t => t.Jobs);
            var shown = o.Required("shown", Number, "every duty shown", t => t.Shown);
            var notShown = o.Required("notShown", Number, "a duty not shown", t => t.NotShown);
            var notProven = o.Required("notProven", Number, "a duty not proven", t => t.NotProven);
            var inProgress = o.Required("inProgress", Number, "open", t => t.InProgress);
            var notJudged = o.Required("notJudged", Number, "no duty applies", t => t.NotJudged);
            var exempt = o.Optional(
                "exempt",
                Number,
                "exempt from lockout by a claim; absent: none",
                t => t.Exempt
            );
            return v =>
                new(
                    v.Get(jobs),
                    v.Get(shown),
                    v.Get(notShown),
                    v.Get(notProven),
                    v.Get(inProgress),
                    v.Get(notJudged),
                    v.Get(exempt)
                );
        }
    );

    private static readonly ObjectShape<SafeWorkSummary.Duty> Duty = Shape.Object<SafeWorkSummary.Duty>(
        "safe-work-duty",
        "One rule about safe work over the period, counted by jobs.",
        o =>
        {
            var rule = o.Required("rule", Terms.Id<Rule>(), "the rule", d => d.Rule);
            var kind = o.Required(
                "kind",
                Shape.Choice<SafeWorkKind>("What a finding about safe work is about."),
                "what it is about",
                d => d.Kind
            );
            var shown = o.Required("shown", Number, "record shows", d => d.Shown);
            var notShown = o.Required("notShown", Number, "record does not show", d => d.NotShown);
            var notProven = o.Required("notProven", Number, "not proven", d => d.NotProven);
            var doesNotApply = o.Required("doesNotApply", Number, "does not apply", d => d.DoesNotApply);
            return v =>
                new(
                    v.Get(rule),
                    v.Get(kind),
                    v.Get(shown),
                    v.Get(notShown),
                    v.Get(notProven),
                    v.Get(doesNotApply)
                );
        }
    );

    private static readonly ObjectShape<AssessmentDigests> Digests = Shape.Object<AssessmentDigests>(
        "safe-work-digests",
        "Content digests of what was judged by what, over canonical JSON (RFC 8785).",
        o =>
        {
            var record = o.Required("record", Terms.Digest, "of the record", d => d.Record);
            var context = o.Required("context", Terms.Digest, "of the registers", d => d.Context);
            var packs = o.Required("packs", Terms.Digest, "of the rules", d => d.Packs);
            return v => new(v.Get(record), v.Get(context), v.Get(packs));
        }
    );

    private static readonly ObjectShape<SafeWorkSummary.Job> Job = Shape.Object<SafeWorkSummary.Job>(
        "safe-work-outcome",
        "What one record shows.",
        o =>
        {
            var record = o.Required("record", Terms.Id<ServiceRecord>(), "which record", j => j.Record);
            var date = o.Required("date", Terms.Day, "its day", j => j.Date);
            var machine = o.Required("machine", Terms.Id<MachineVisit>(), "its machine", j => j.Machine);
            var site = o.Required("site", Terms.Title, "its site", j => j.Site);
            var standing = o.Required(
                "standing",
                Shape.Choice<SafeWorkStanding>("What a record shows of safe work, taken as a whole."),
                "what it shows as a whole",
                j => j.Standing
            );
            var disposition = o.Required(
                "disposition",
                Shape.Choice<Disposition>("May it go out?"),
                "may it go out?",
                j => j.Disposition
            );
            var digests = o.Required("digests", Digests, "what was judged by what", j => j.Digests);
            var assessment = o.Required(
                "assessment",
                Terms.Digest,
                "digest of the assessment that judging it gives",
                j => j.Assessment
            );
            var notShown = o.Items(
                "notShown",
                Terms.Identity,
                FormatLimits.Rules,
                "rules that are not shown",
                j => j.NotShown
            );
            var notProven = o.Items(
                "notProven",
                Terms.Identity,
                FormatLimits.Rules,
                "rules that are not proven",
                j => j.NotProven
            );
            return v =>
                new(
                    v.Get(record),
                    v.Get(date),
                    v.Get(machine),
                    v.Get(site),
                    v.Get(standing),
                    v.Get(disposition),
                    v.Get(digests),
                    v.Get(assessment),
                    v.Get(notShown),
                    v.Get(notProven)
                );
        }
    );

    private static readonly ObjectShape<SafeWorkSummary> Root = Shape.Object<SafeWorkSummary>(
        "safe-work-summary",
        "What the records of a period show of safe work.",
        o =>
        {
            _ = o.Required(
                "semantics",
                Shape.Word(Assessment.SemanticsVersion),
                "version of the verdict semantics",
                _ => true
            );
            var from = o.Required("from", Terms.Day, "first day of the period", s => s.From);
            var until = o.Required("until", Terms.Day, "last day of the period", s => s.Until);
            var totals = o.Required("totals", Totals, "how many jobs stand how", s => s.Totals);
            var duties = o.Items("duties", Duty, FormatLimits.Rules, "rules over the period", s => s.Duties);
            var jobs = o.Items("jobs", Job, SafeWorkJobsFormat.JobsMax, "the jobs", s => s.Jobs);
            return v => new(v.Get(from), v.Get(until), v.Get(totals), v.Get(duties), v.Get(jobs));
        }
    );

    /// <summary>The version that is written today.</summary>
    public static DocumentFormat<SafeWorkSummary> Current { get; } =
        new("safe-work-summary", 1, ReadLimits.Library, Root);
}
