using System.Globalization;
using ServiceRules.Domain.Verdicts;
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
            foreach (var duty in job.OpenDuties)
            {
                yield return Line(view, duty.Finding, view.TitleOf(duty.Rule));
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

    private static Row Line(PeriodView view, Finding finding, string title)
    {
        var told = FindingBlock.Print(finding, VerdictPrint.OfSafeWork(finding.Verdict));
        var entries = finding.Evidence.IsEmpty ? "" : $" ({string.Join(", ", InOrder(finding.Evidence))})";
        return view.MarkedLine(
            told,
            new Span($"{ReportWords.Sentence(told.Word)} · ", Palette.TinyBold with { Ink = told.Ink }),
            new Span(view.Say(finding.Statement), Palette.Tiny),
            new Span($"  {title}", Palette.TinyQuiet),
            new Span(finding.LetOut is { } letOut ? $"  Let out: {letOut}" : "", Palette.TinyBold),
            new Span(entries, Palette.TinyQuiet)
        );
    }

    /// <summary>As a reader counts: the seventh entry before the tenth.</summary>
    private static IEnumerable<string> InOrder(IEnumerable<string> pointers) =>
        pointers.OrderBy(pointer => pointer.Length).ThenBy(pointer => pointer, StringComparer.Ordinal);
}
