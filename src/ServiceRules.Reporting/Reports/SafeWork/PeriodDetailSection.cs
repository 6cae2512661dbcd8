using System.Globalization;
using ServiceRules.Application.SafeWork;
using ServiceRules.Reporting.Layout;
using ServiceRules.Reporting.Reports.Sections;
using ServiceRules.Reporting.Reports.Words;

namespace ServiceRules.Reporting.Reports.SafeWork;

/// <summary>Every job that leaves a duty open: what, and on which entries of the attached record that rests.</summary>
internal static class PeriodDetailSection
{
    public static IEnumerable<Block> Of(PeriodView view)
    {
        var jobs = view.Jobs.Where(job => job.OpenDuties.Any()).ToList();
        if (jobs.Count == 0)
        {
            yield break;
        }
        yield return Paragraph.Heading(2, "Jobs with a duty not shown or not proven", Palette.Heading);
        foreach (var job in jobs)
        {
            yield return Paragraph.Heading(3, Head(job), Palette.SubHeading);
            foreach (var cause in job.Causes)
            {
                yield return Line(view, cause);
            }
        }
    }

    private static string Head(PeriodJob job)
    {
        var record = job.Job.Record;
        var tasks = ReportWords.Listed([.. record.Tasks.Select(ReportWords.Of)]);
        return string.Create(
            CultureInfo.InvariantCulture,
            $"{record.Id.Text} · {record.Date:yyyy-MM-dd} · {record.Machine.Id.Text} · {tasks} · {ReportWords.Of(job.Job.Assessment.State)} · jobs.json /jobs/{job.Index}/record"
        );
    }

    private static Row Line(PeriodView view, Cause cause)
    {
        var finding = cause.First;
        var told = FindingBlock.Print(finding, VerdictPrint.OfSafeWork(finding.Verdict));
        var evidence = InOrder(cause.Evidence).ToList();
        var entries = evidence.Count == 0 ? "" : $" ({string.Join(", ", evidence)})";
        var titles = cause.Findings.Select(one => view.TitleOf(one.Rule)).Distinct(StringComparer.Ordinal);
        var clauses = cause
            .Findings.Select(one => view.Clauses.For(one.Rule))
            .Where(clause => clause.Length > 0)
            .Distinct(StringComparer.Ordinal)
            .ToList();
        var statement = cause is { IsOfSeveral: true, IsOfCredibility: true }
            ? $"{cause.Findings.Length} duties: {Cause.NotCredible}."
            : view.Say(string.Join(" ", cause.Statements));
        return view.MarkedLine(
            told,
            new Span($"{ReportWords.Sentence(told.Word)} · ", Palette.TinyBold with { Ink = told.Ink }),
            new Span(statement, Palette.Tiny),
            new Span($"  {string.Join("; ", titles)}", Palette.TinyQuiet),
            new Span(clauses.Count == 0 ? "" : $"  {string.Join("; ", clauses)}", Palette.TinyBold),
            new Span(finding.LetOut is { } letOut ? $"  Let out: {letOut}" : "", Palette.TinyBold),
            new Span(entries, Palette.TinyQuiet)
        );
    }

    /// <summary>As a reader counts: the seventh entry before the tenth.</summary>
    private static IEnumerable<string> InOrder(IEnumerable<string> pointers) =>
        pointers.OrderBy(pointer => pointer.Length).ThenBy(pointer => pointer, StringComparer.Ordinal);
}
