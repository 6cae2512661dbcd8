using System.Collections.Immutable;
using System.Globalization;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Reporting.Layout;
using ServiceRules.Reporting.Reports.Words;

namespace ServiceRules.Reporting.Reports.SafeWork;

/// <summary>Open jobs on which nothing is missed so far: somebody may be at the unit now.</summary>
internal static class GoingOnSection
{
    /// <summary>People named in one line; the detail of the job has all.</summary>
    private const int PeopleMax = 6;

    public static IEnumerable<Block> Of(PeriodView view, int most)
    {
        var open = view.GoingOn.ToList();
        if (open.Count == 0)
        {
            yield break;
        }
        yield return Paragraph.Heading(2, "Still open, nothing missed so far", Palette.Heading);
        foreach (var job in open.Take(most))
        {
            yield return Line(view, job);
        }
        if (open.Count > most)
        {
            yield return new Paragraph(
                $"and {ReportWords.Counted(open.Count - most, "more job", "more jobs")}, in the list of all jobs",
                Palette.SmallQuiet
            );
        }
    }

    /// <summary>Whose hands are in since when, and whose may not go in again, for somebody who goes there; empty: nobody's.</summary>
    public static string HandsIn(PeriodJob job) => In(job) + NotAgain(job);

    private static string NotAgain(PeriodJob job) =>
        job.NotAgain.IsEmpty
            ? ""
            : $"not in again before it is made safe anew: {Named([.. job.NotAgain.Select(one => one.Text)])}. ";

    private static string In(PeriodJob job) =>
        job.HandsIn.IsEmpty
            ? ""
            : "hands in: "
                + Named([
                    .. job.HandsIn.Select(work =>
                        $"{work.Person.Text} since {EventPrint.When(work.Start.Event.At, job.Job.Record.Date)}"
                    ),
                ])
                + ". ";

    private static string Named(ImmutableArray<string> people) =>
        people.Length <= PeopleMax
            ? string.Join(", ", people)
            : FormattableString.Invariant(
                $"{string.Join(", ", people.Take(PeopleMax))} and {people.Length - PeopleMax} more"
            );

    private static Row Line(PeriodView view, PeriodJob job)
    {
        var print = StandingPrint.Of(job.Found, RecordState.Open);
        var record = job.Job.Record;
        var toCome = job.Found.Open.Count(one => one.IsToCome);
        return view.MarkedLine(
            print,
            new Span(
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"{record.Id.Text} · {record.Date:yyyy-MM-dd} · {record.Machine.Id.Text} · {print.Word}, still open · "
                ),
                Palette.SmallBold
            ),
            new Span((job.HandsIn.IsEmpty ? "no hands in shown. " : "") + HandsIn(job), Palette.SmallBold),
            new Span(
                toCome == 0
                    ? "Not signed off."
                    : $"{ReportWords.Counted(toCome, "duty is", "duties are")} to come after the work.",
                Palette.SmallQuiet
            )
        );
    }
}
