using System.Collections.Immutable;
using ServiceRules.Application.SafeWork;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Model;

namespace ServiceRules.Reporting.Reports.SafeWork;

/// <summary>One duty that two jobs of a period or more leave open; or what leaves many duties of them open at once.</summary>
/// <param name="Rule">The rule; null: entries that are not credible enough, whatever duty they were to prove.</param>
/// <param name="Duties">How many duties it is.</param>
/// <param name="NotShown">Jobs whose record does not show it.</param>
/// <param name="NotProven">Jobs whose record does not prove it.</param>
internal sealed record RecurringDuty(
    Rule? Rule,
    int Duties,
    ImmutableArray<PeriodJob> NotShown,
    ImmutableArray<PeriodJob> NotProven
)
{
    public IEnumerable<PeriodJob> Jobs => NotShown.Concat(NotProven).OrderBy(job => job.Index);

    public static ImmutableArray<RecurringDuty> Of(IEnumerable<PeriodJob> jobs) =>
        [
            .. jobs.SelectMany(job => job.OpenDuties.Select(duty => (job, duty)))
                .GroupBy(
                    one => Cause.IsCredibility(one.duty.Finding) ? "" : one.duty.Finding.Rule,
                    StringComparer.Ordinal
                )
                .Select(same => new RecurringDuty(
                    same.Key.Length == 0 ? null : same.First().duty.Rule,
                    same.Select(one => one.duty.Finding.Rule).Distinct(StringComparer.Ordinal).Count(),
                    With(same, Verdict.NotMet),
                    With(same, Verdict.Unproven)
                ))
                // What one job alone leaves open stands with that job.
                .Where(duty => duty.Jobs.DistinctBy(job => job.Index).Skip(1).Any())
                .OrderByDescending(duty =>
                    duty.NotShown.IsEmpty || duty.Rule is null ? Severity.Advise : duty.Rule.Severity
                )
                .ThenByDescending(duty => duty.NotShown.Length)
                .ThenByDescending(duty => duty.NotProven.Length)
                .ThenBy(duty => duty.Rule?.Id.Text, StringComparer.Ordinal),
        ];

    private static ImmutableArray<PeriodJob> With(
        IEnumerable<(PeriodJob job, SafeWorkFinding duty)> same,
        Verdict verdict
    ) =>
        [
            .. same.Where(one => one.duty.Finding.Verdict == verdict)
                .Select(one => one.job)
                .DistinctBy(job => job.Index),
        ];
}
