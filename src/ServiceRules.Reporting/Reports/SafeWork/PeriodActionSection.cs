using System.Globalization;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Reporting.Layout;
using ServiceRules.Reporting.Reports.Words;

namespace ServiceRules.Reporting.Reports.SafeWork;

/// <summary>The jobs that need action, one line each: those still open first, for somebody may go to the unit next.</summary>
internal static class PeriodActionSection
{
    /// <summary>Duties named in one line.</summary>
    private const int NamedMax = 4;

    public static IEnumerable<Block> Of(PeriodView view, int most)
    {
        var needing = view.NeedAction.ToList();
        if (needing.Count == 0)
        {
            yield break;
        }
        yield return Paragraph.Heading(2, "Needs action", Palette.Heading);
        foreach (var job in needing.Take(most))
        {
            yield return Line(view, job);
        }
        if (needing.Count > most)
        {
            yield return new Paragraph(
                $"and {ReportWords.Counted(needing.Count - most, "more job", "more jobs")}, told below with all their entries",
                Palette.SmallQuiet
            );
        }
    }

    private static Row Line(PeriodView view, PeriodJob job)
    {
        var print = StandingPrint.Of(job.Standing, job.Job.Assessment.State);
        var record = job.Job.Record;
        return view.MarkedLine(
            print,
            new Span(
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"{record.Id.Text} · {record.Date:yyyy-MM-dd} · {record.Machine.Id.Text} · {print.Word}{(job.IsOpen ? ", still open" : "")} · "
                ),
                Palette.SmallBold
            ),
            new Span(Named(view, job, Verdict.NotMet, "not shown"), Palette.Small),
            new Span(Named(view, job, Verdict.Unproven, "not proven"), Palette.SmallQuiet)
        );
    }

    private static string Named(PeriodView view, PeriodJob job, Verdict verdict, string word)
    {
        var titles = job
            .OpenDuties.Where(one => one.Finding.Verdict == verdict)
            .Select(one => view.TitleOf(one.Rule).ToLowerInvariant())
            .Distinct(StringComparer.Ordinal)
            .ToList();
        if (titles.Count == 0)
        {
            return "";
        }
        var more = titles.Count > NamedMax ? $" and {titles.Count - NamedMax} more" : "";
        return $"{word}: {string.Join(", ", titles.Take(NamedMax))}{more}. ";
    }
}
