using System.Collections.Immutable;
using ServiceRules.Application.SafeWork;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Model;

namespace ServiceRules.Reporting.Reports.SafeWork;

/// <summary>One thing that a register of a site says or lacks, told once however many jobs it bears on.</summary>
/// <param name="Site">The site.</param>
/// <param name="Rules">The rules that miss it, the gravest first.</param>
/// <param name="Verdict">Not shown, or not proven.</param>
/// <param name="Statement">What it is.</param>
/// <param name="Jobs">The jobs that it bears on.</param>
internal sealed record ProgrammeFault(
    string Site,
    ImmutableArray<Rule> Rules,
    Verdict Verdict,
    string Statement,
    ImmutableArray<PeriodJob> Jobs
)
{
    public static ImmutableArray<ProgrammeFault> Of(IEnumerable<PeriodJob> jobs) =>
        [
            .. jobs.SelectMany(job =>
                    job.Found.Open.Where(one => one.Kind == SafeWorkKind.Programme)
                        .SelectMany(one =>
                            Statements(one)
                                .Select(statement => (job, one.Rule, one.Finding.Verdict, statement))
                        )
                )
                .GroupBy(one => (one.job.Job.Context.Site, one.statement))
                .Select(same => new ProgrammeFault(
                    same.Key.Site,
                    [
                        .. same.Select(one => one.Rule)
                            .DistinctBy(rule => rule.Id)
                            .OrderByDescending(rule => rule.Severity)
                            .ThenBy(rule => rule.Id),
                    ],
                    same.Any(one => one.Verdict == Verdict.NotMet) ? Verdict.NotMet : Verdict.Unproven,
                    same.Key.statement,
                    [.. same.Select(one => one.job).DistinctBy(job => job.Index)]
                ))
                .OrderBy(fault => fault.Verdict == Verdict.NotMet ? 0 : 1)
                .ThenByDescending(fault => fault.Rules[0].Severity)
                .ThenBy(fault => fault.Site, StringComparer.Ordinal)
                .ThenBy(fault => fault.Rules[0].Id.Text, StringComparer.Ordinal)
                .ThenBy(fault => fault.Statement, StringComparer.Ordinal),
        ];

    /// <summary>A finding tells its worst first and the others beside it; here each is a fault of its own.</summary>
    private static IEnumerable<string> Statements(SafeWorkFinding one) =>
        one.Finding.Notices.Prepend(one.Finding.Statement).Distinct(StringComparer.Ordinal);
}
