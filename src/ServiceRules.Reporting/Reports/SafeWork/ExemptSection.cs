using System.Globalization;
using ServiceRules.Reporting.Layout;
using ServiceRules.Reporting.Reports.Words;

namespace ServiceRules.Reporting.Reports.SafeWork;

/// <summary>
/// Jobs of which a claim takes lockout off: by whom, and whether the machine ran meanwhile, for nobody but a person can say
/// whether the claim is so.
/// </summary>
internal static class ExemptSection
{
    public static IEnumerable<Block> Of(PeriodView view, int most)
    {
        var exempt = view.Exempt.ToList();
        if (exempt.Count == 0)
        {
            yield break;
        }
        yield return Paragraph.Heading(2, "No lockout, by a claim: for a person to look at", Palette.Heading);
        foreach (var job in exempt.Take(most))
        {
            yield return Line(view, job);
        }
        if (exempt.Count > most)
        {
            yield return new Paragraph(
                $"and {ReportWords.Counted(exempt.Count - most, "more job", "more jobs")}, in the list of all jobs",
                Palette.SmallQuiet
            );
        }
    }

    private static Row Line(PeriodView view, PeriodJob job)
    {
        var record = job.Job.Record;
        return view.MarkedLine(
            StandingPrint.Of(job.Found, job.Job.Assessment.State),
            new Span(
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"{record.Id.Text} · {record.Date:yyyy-MM-dd} · {record.Machine.Id.Text}{(job.IsOpen ? ", still open" : "")} · "
                ),
                Palette.SmallBold
            ),
            new Span(ClaimWords.Short(job.Found.Exemption!) + ". ", Palette.Small),
            new Span(Ran(job), Palette.SmallBold)
        );
    }

    private static string Ran(PeriodJob job) =>
        job.RanDuringWork is { } start
            ? $"The machine ran with hands-on work going on, from {EventPrint.When(start.Event.At, job.Job.Record.Date)}."
            : "";
}
