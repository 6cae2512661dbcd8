using System.Collections.Immutable;
using System.Globalization;
using ServiceRules.Application.SafeWork;
using ServiceRules.Reporting.Layout;
using ServiceRules.Reporting.Reports.Words;

namespace ServiceRules.Reporting.Reports.SafeWork;

/// <summary>What recurs: each duty left open, how often, when and where. Nobody is counted.</summary>
internal static class RecurringSection
{
    public static IEnumerable<Block> Of(PeriodView view, int most)
    {
        if (view.Recurring.IsEmpty)
        {
            yield break;
        }
        yield return Paragraph.Heading(2, "What recurs, by duty", Palette.Heading);
        yield return TableOf(view, [.. view.Recurring.Take(most)]);
        if (view.Recurring.Length > most)
        {
            yield return new Paragraph(
                $"and {view.Recurring.Length - most} more, told below",
                Palette.SmallQuiet
            );
        }
    }

    /// <summary>What did not fit on page one.</summary>
    public static IEnumerable<Block> Rest(PeriodView view, int told)
    {
        if (view.Recurring.Length <= told)
        {
            yield break;
        }
        yield return Paragraph.Heading(2, "What recurs, by duty: the rest", Palette.Heading);
        yield return TableOf(view, [.. view.Recurring.Skip(told)]);
    }

    private static Table TableOf(PeriodView view, ImmutableArray<RecurringDuty> duties)
    {
        var hasClauses = !view.Clauses.Texts.IsEmpty;
        return new Table(
            Only(
                hasClauses,
                ColumnWidth.Share(1.7),
                ColumnWidth.Share(0.8),
                ColumnWidth.Fixed(38),
                ColumnWidth.Fixed(38),
                ColumnWidth.Fixed(84),
                ColumnWidth.Share(1.1)
            ),
            new TableRow(
                Only<Block>(
                    hasClauses,
                    Head("duty"),
                    Head("clause"),
                    Head("not shown"),
                    Head("not proven"),
                    Head("days"),
                    Head("where (jobs)")
                )
            ),
            [.. duties.Select(duty => RowOf(view, duty, hasClauses))],
            new TableStyle(3, 1.1, Palette.HairLine) { HeaderLine = Palette.Outline }
        );
    }

    private static TableRow RowOf(PeriodView view, RecurringDuty duty, bool hasClauses) =>
        new(
            Only<Block>(
                hasClauses,
                new Paragraph(Title(view, duty), Palette.TinyBold),
                new Paragraph(duty.Rule is { } rule ? view.Clauses.For(rule) : "", Palette.Tiny),
                Count(duty.NotShown.Length),
                Count(duty.NotProven.Length),
                new Paragraph(Days([.. duty.Jobs]), Palette.Tiny),
                new Paragraph(Where([.. duty.Jobs]), Palette.Tiny)
            )
        );

    private static string Title(PeriodView view, RecurringDuty duty) =>
        duty.Rule is { } rule ? view.TitleOf(rule)
        : duty.Duties == 1 ? ReportWords.Sentence(Cause.NotCredible)
        : $"{ReportWords.Sentence(Cause.NotCredible)} ({duty.Duties} duties)";

    private static ImmutableArray<T> Only<T>(
        bool hasClauses,
        T duty,
        T clause,
        T notShown,
        T notProven,
        T days,
        T where
    ) =>
        hasClauses
            ? [duty, clause, notShown, notProven, days, where]
            : [duty, notShown, notProven, days, where];

    private static string Days(ImmutableArray<PeriodJob> jobs)
    {
        var first = PeriodView.Day(jobs.Min(job => job.Job.Record.Date));
        var last = PeriodView.Day(jobs.Max(job => job.Job.Record.Date));
        return first == last ? first : $"{first} to {last}";
    }

    private static string Where(ImmutableArray<PeriodJob> jobs) =>
        string.Join(
            ", ",
            jobs.DistinctBy(job => job.Index)
                .GroupBy(job => job.Job.Record.Machine.Id.Text, StringComparer.Ordinal)
                .OrderBy(place => place.Key, StringComparer.Ordinal)
                .Select(place =>
                    string.Create(CultureInfo.InvariantCulture, $"{place.Key} ({place.Count()})")
                )
        );

    private static Paragraph Count(int count) =>
        new(count.ToString(CultureInfo.InvariantCulture), count == 0 ? Palette.TinyQuiet : Palette.TinyBold);

    private static Paragraph Head(string text) => new(text, Palette.TinyQuiet);
}
