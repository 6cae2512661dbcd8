using System.Collections.Immutable;
using System.Globalization;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Reporting.Layout;
using ServiceRules.Reporting.Reports.Words;

namespace ServiceRules.Reporting.Reports.SafeWork;

/// <summary>Every job of the period with its outcome, by day.</summary>
internal static class JobListSection
{
    public static IEnumerable<Block> Of(PeriodView view)
    {
        yield return Paragraph.Heading(2, "All jobs of the period", Palette.Heading);
        yield return new Table(
            [
                ColumnWidth.Fixed(58),
                ColumnWidth.Fixed(52),
                ColumnWidth.Fixed(52),
                ColumnWidth.Share(1.2),
                ColumnWidth.Share(1),
                ColumnWidth.Fixed(58),
                ColumnWidth.Fixed(38),
            ],
            new TableRow([
                .. new[] { "job", "day", "machine", "tasks", "safe work", "job as a whole", "/jobs/" }.Select(
                    text => new Paragraph(text, Palette.TinyQuiet)
                ),
            ]),
            [.. view.Jobs.Select(job => RowOf(view, job))],
            new TableStyle(3, 0.8, Palette.HairLine) { HeaderLine = Palette.Outline }
        );
    }

    private static TableRow RowOf(PeriodView view, PeriodJob job)
    {
        var record = job.Job.Record;
        var state = job.Job.Assessment.State;
        var standing = StandingPrint.Of(job.Found, state);
        var whole = VerdictPrint.Of(job.Job.Assessment.Job.Disposition, state);
        return new TableRow([
            new Paragraph(record.Id.Text, Palette.TinyBold),
            Cell(PeriodView.Day(record.Date)),
            Cell(record.Machine.Id.Text),
            Cell(ReportWords.Listed([.. record.Tasks.Select(ReportWords.Of)])),
            view.MarkedLine(
                standing,
                new Span(standing.Word, Palette.Tiny),
                new Span(Counts(job), Palette.TinyQuiet)
            ),
            Cell(whole.Word),
            Cell(job.Index.ToString(CultureInfo.InvariantCulture)),
        ]);
    }

    private static string Counts(PeriodJob job)
    {
        int With(Verdict verdict) => job.OpenDuties.Count(one => one.Finding.Verdict == verdict);
        ImmutableArray<string> parts =
        [
            With(Verdict.NotMet) is > 0 and var missed ? $"{missed} not shown" : "",
            With(Verdict.Unproven) is > 0 and var doubtful ? $"{doubtful} not proven" : "",
        ];
        var told = string.Join(", ", parts.Where(part => part.Length > 0));
        return told.Length == 0 ? "" : $"  {told}";
    }

    private static Paragraph Cell(string text) => new(text, Palette.Tiny);
}
