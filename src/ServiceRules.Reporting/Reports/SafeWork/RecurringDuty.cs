using System.Collections.Immutable;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Model;

namespace ServiceRules.Reporting.Reports.SafeWork;

/// <summary>One duty that some jobs of a period leave open.</summary>
/// <param name="Rule">The rule.</param>
/// <param name="NotShown">Jobs whose record does not show it.</param>
/// <param name="NotProven">Jobs whose record does not prove it.</param>
internal sealed record RecurringDuty(
    Rule Rule,
    ImmutableArray<PeriodJob> NotShown,
    ImmutableArray<PeriodJob> NotProven
)
{
    public IEnumerable<PeriodJob> Jobs => NotShown.Concat(NotProven).OrderBy(job => job.Index);

    public static ImmutableArray<RecurringDuty> Of(IEnumerable<PeriodJob> jobs) =>
        [
            .. jobs.SelectMany(job => job.OpenDuties.Select(duty => (job, duty)))
                .GroupBy(one => one.duty.Finding.Rule, StringComparer.Ordinal)
                .Select(same => new RecurringDuty(
                    same.First().duty.Rule,
                    With(same, Verdict.NotMet),
                    With(same, Verdict.Unproven)
                ))
                .OrderByDescending(duty => duty.NotShown.IsEmpty ? Severity.Advise : duty.Rule.Severity)
                .ThenByDescending(duty => duty.NotShown.Length)
                .ThenByDescending(duty => duty.NotProven.Length)
                .ThenBy(duty => duty.Rule.Id.Text, StringComparer.Ordinal),
        ];

    private static ImmutableArray<PeriodJob> With(
        IEnumerable<(PeriodJob job, Application.SafeWork.SafeWorkFinding duty)> same,
        Verdict verdict
    ) =>
        [
            .. same.Where(one => one.duty.Finding.Verdict == verdict)
                .Select(one => one.job)
                .DistinctBy(job => job.Index),
        ];
}
