using System.Globalization;
using ServiceRules.Application.SafeWork;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Formats.SafeWork;
using ServiceRules.Reporting.Layout;
using ServiceRules.Reporting.Reports.Sections;
using ServiceRules.Reporting.Reports.Words;

namespace ServiceRules.Reporting.Reports.SafeWork;

/// <summary>The jobs that need action, one line each: those still open first, for somebody may go to the unit next.</summary>
internal static class PeriodActionSection
{
    /// <summary>Duties named in one line.</summary>
    private const int NamedMax = 4;

    private const int Columns = 4;

    public static IEnumerable<Block> Of(PeriodView view, int most, int named)
    {
        var needing = view.NeedAction.ToList();
        var contradicting = view.Period.LeftOut.Contradicting;
        if (needing.Count == 0 && contradicting.IsEmpty)
        {
            yield break;
        }
        yield return Paragraph.Heading(2, "Needs action", Palette.Heading);
        foreach (var one in contradicting.Take(most))
        {
            yield return Line(view, one);
        }
        if (contradicting.Length > most)
        {
            yield return new Paragraph(
                $"and {ReportWords.Counted(contradicting.Length - most, "more record", "more records")} with different content in several files, under \"{PeriodBasisSection.LeftOutTitle}\"",
                Palette.SmallQuiet
            );
        }
        foreach (var job in needing.Take(most))
        {
            yield return Line(view, job);
        }
        if (needing.Count > most)
        {
            yield return new Paragraph(
                $"and {ReportWords.Counted(needing.Count - most, "more job", "more jobs")}, told below with all their entries (not shown / not proven):",
                Palette.SmallQuiet
            );
            var told = needing.Skip(most).Take(named).ToList();
            if (told.Count > 0)
            {
                yield return Columned.Of([.. told.Select(job => Name(view, job))], Columns);
            }
            if (needing.Count - most > told.Count)
            {
                yield return new Paragraph(
                    $"and {needing.Count - most - told.Count} more",
                    Palette.SmallQuiet
                );
            }
        }
    }

    /// <summary>Which of several records of one identity is true, nobody can tell from them.</summary>
    private static Row Line(PeriodView view, ContradictingRecord one) =>
        view.MarkedLine(
            StandingPrint.Of(SafeWorkStanding.NotShown, RecordState.SignedOff),
            new Span($"{one.Record} · not judged · ", Palette.SmallBold),
            new Span(
                $"{Files(one)} contradict each other: one identity with different content. Find out which is true, and what the others are.",
                Palette.Small
            )
        );

    private static string Files(ContradictingRecord one) =>
        one.Files.Length <= NamedMax
            ? ReportWords.Listed(one.Files)
            : FormattableString.Invariant(
                $"{string.Join(", ", one.Files.Take(NamedMax))} and {one.Files.Length - NamedMax} more files"
            );

    /// <summary>A job that needs action by its name, with how many duties it leaves open.</summary>
    private static Row Name(PeriodView view, PeriodJob job)
    {
        var record = job.Job.Record;
        int With(Verdict verdict) => job.OpenDuties.Count(one => one.Finding.Verdict == verdict);
        return view.MarkedLine(
            StandingPrint.Of(job.Found, job.Job.Assessment.State),
            new Span($"{record.Id.Text} ", Palette.TinyBold),
            new Span(
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"{record.Date:yyyy-MM-dd} {record.Machine.Id.Text}{(job.IsOpen ? " open" : "")} ({With(Verdict.NotMet)} / {With(Verdict.Unproven)})"
                ),
                Palette.Tiny
            )
        );
    }

    private static Row Line(PeriodView view, PeriodJob job)
    {
        var print = StandingPrint.Of(job.Found, job.Job.Assessment.State);
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
            new Span(GoingOnSection.HandsIn(job), Palette.SmallBold),
            new Span(Named(view, job, Verdict.NotMet, "not shown"), Palette.Small),
            new Span(Named(view, job, Verdict.Unproven, "not proven"), Palette.SmallQuiet),
            new Span(job.IsOpen ? Doubts(view, job) : "", Palette.SmallQuiet)
        );
    }

    private static string Named(PeriodView view, PeriodJob job, Verdict verdict, string word)
    {
        var titles = job
            .Causes.Where(cause => cause.First.Verdict == verdict)
            .SelectMany(cause => Named(view, cause))
            .Distinct(StringComparer.Ordinal)
            .ToList();
        if (titles.Count == 0)
        {
            return "";
        }
        var more = titles.Count > NamedMax ? $" and {titles.Count - NamedMax} more" : "";
        return $"{word}: {string.Join(", ", titles.Take(NamedMax))}{more}. ";
    }

    /// <summary>Many duties that one thing leaves open are told by that thing.</summary>
    private static IEnumerable<string> Named(PeriodView view, Cause cause) =>
        cause is { IsOfSeveral: true, IsOfCredibility: true }
            ? [$"{cause.Findings.Length} duties, {Cause.NotCredible}"]
        : cause.IsOfHands
            ? [$"{view.TitleOf(cause.Findings[0].Rule).ToLowerInvariant()} ({cause.Findings.Length} duties)"]
        : cause.Findings.Select(one => view.TitleOf(one.Rule).ToLowerInvariant());

    private static string Doubts(PeriodView view, PeriodJob job)
    {
        var titles = job
            .Doubts.Select(one => view.TitleOf(one.Rule).ToLowerInvariant())
            .Distinct(StringComparer.Ordinal)
            .ToList();
        return titles.Count == 0 ? "" : $"not proven of the entries: {string.Join(", ", titles)}. ";
    }
}
