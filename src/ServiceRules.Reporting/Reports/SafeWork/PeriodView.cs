using System.Collections.Immutable;
using System.Globalization;
using ServiceRules.Application.SafeWork;
using ServiceRules.Reporting.Layout;
using ServiceRules.Reporting.Reports.Words;
using ServiceRules.Rules.Model;

namespace ServiceRules.Reporting.Reports.SafeWork;

/// <summary>The jobs of a period arranged for telling.</summary>
internal sealed class PeriodView
{
    public PeriodView(SafeWorkPeriod period, ReportTerms terms, ITextMeasure measure, DateTimeOffset issuedAt)
    {
        Period = period;
        Terms = terms;
        Measure = measure;
        IssuedAt = issuedAt;
        Jobs = [.. period.Jobs.Select((job, index) => new PeriodJob(index, job, SafeWorkFindings.Of(job)))];
        Recurring = RecurringDuty.Of(Jobs);
        Programme = ProgrammeFault.Of(Jobs);
        Clauses = Clauses.Of(period.Jobs);
    }

    public SafeWorkPeriod Period { get; }

    public ReportTerms Terms { get; }

    public ITextMeasure Measure { get; }

    public DateTimeOffset IssuedAt { get; }

    public ImmutableArray<PeriodJob> Jobs { get; }

    /// <summary>Duties left open, gravest and most frequent first.</summary>
    public ImmutableArray<RecurringDuty> Recurring { get; }

    /// <summary>Faults of the registers, each once.</summary>
    public ImmutableArray<ProgrammeFault> Programme { get; }

    public Clauses Clauses { get; }

    /// <summary>Jobs that are kept in by what their record leaves open: hands in first, then other open jobs, then stops, then by day.</summary>
    public IEnumerable<PeriodJob> NeedAction =>
        Jobs.Where(job => job.NeedsAction)
            .OrderBy(job =>
                job.IsOpen && !job.HandsIn.IsEmpty ? 0
                : job.IsOpen ? 1
                : 2
            )
            .ThenByDescending(job => job.Gravest)
            .ThenBy(job => job.Index);

    /// <summary>Open jobs on which nothing is missed so far, those with hands in first.</summary>
    public IEnumerable<PeriodJob> GoingOn =>
        Jobs.Where(job => job.IsOpen && !job.NeedsAction)
            .OrderBy(job => job.HandsIn.IsEmpty ? 1 : 0)
            .ThenBy(job => job.Index);

    /// <summary>Jobs of which a claim that holds takes lockout off, those still open first, then those on a machine that ran.</summary>
    public IEnumerable<PeriodJob> Exempt =>
        Jobs.Where(job => job.Found.Exemption is not null)
            .OrderBy(job => job.IsOpen ? 0 : 1)
            .ThenBy(job => job.RanDuringWork is null ? 1 : 0)
            .ThenBy(job => job.Index);

    /// <summary>The sites, for the running head.</summary>
    public string Sites =>
        string.Join(", ", Jobs.Select(job => job.Job.Context.Site).Distinct(StringComparer.Ordinal));

    public bool IsOfSeveralSites =>
        Jobs.Select(job => job.Job.Context.Site).Distinct(StringComparer.Ordinal).Skip(1).Any();

    public int With(SafeWorkStanding standing) => Jobs.Count(job => job.Standing == standing);

    public string TitleOf(Rule rule) => Say(rule.Title);

    public string Say(string text) => TradeVocabulary.Say(text, Terms.Trade);

    public static string Day(DateOnly day) => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    public string Days =>
        Period.From == Period.Until ? Day(Period.From) : $"{Day(Period.From)} to {Day(Period.Until)}";

    public JobView Told(PeriodJob job) => new(job.Job, Terms, Measure, IssuedAt);

    public Row MarkedLine(VerdictPrint print, params Span[] spans) =>
        Sections.MarkedLine.Of(print, Measure, spans);
}
