using ServiceRules.Application.SafeWork;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Reporting.Layout;
using ServiceRules.Reporting.Reports.Words;

namespace ServiceRules.Reporting.Reports.SafeWork;

/// <summary>Faults of the registers, each once however many jobs it bears on; and doubts about entries.</summary>
internal static class PeriodProgrammeSection
{
    public static IEnumerable<Block> Of(PeriodView view, int most)
    {
        if (!view.Programme.IsEmpty)
        {
            yield return Paragraph.Heading(
                2,
                "Registers: told once, whatever jobs they bear on",
                Palette.Heading
            );
            foreach (var fault in view.Programme.Take(most))
            {
                yield return Line(view, fault);
            }
            if (view.Programme.Length > most)
            {
                yield return new Paragraph(
                    $"and {view.Programme.Length - most} more, told below",
                    Palette.SmallQuiet
                );
            }
        }
        foreach (var block in Doubts(view))
        {
            yield return block;
        }
    }

    /// <summary>What did not fit on page one.</summary>
    public static IEnumerable<Block> Rest(PeriodView view, int told)
    {
        if (view.Programme.Length <= told)
        {
            yield break;
        }
        yield return Paragraph.Heading(2, "Registers: the rest", Palette.Heading);
        foreach (var fault in view.Programme.Skip(told))
        {
            yield return Line(view, fault);
        }
    }

    private static Row Line(PeriodView view, ProgrammeFault fault) =>
        view.MarkedLine(
            VerdictPrint.OfSafeWork(fault.Verdict),
            new Span(view.IsOfSeveralSites ? $"{fault.Site}: " : "", Palette.SmallBold),
            new Span(view.Say(fault.Statement), Palette.Small),
            new Span(
                $" {string.Join("; ", fault.Rules.Select(view.TitleOf))}, bears on {ReportWords.Counted(fault.Jobs.Length, "job", "jobs")}",
                Palette.SmallQuiet
            )
        );

    private static IEnumerable<Block> Doubts(PeriodView view)
    {
        var told = view
            .Jobs.SelectMany(job =>
                job.Found.Open.Where(one => one.Kind == SafeWorkKind.Credibility)
                    .Select(one => (job, one.Rule))
            )
            .GroupBy(one => one.Rule.Id.Text, StringComparer.Ordinal)
            .OrderByDescending(same => same.Count())
            .ThenBy(same => same.Key, StringComparer.Ordinal)
            .Select(same =>
                $"{view.TitleOf(same.First().Rule).ToLowerInvariant()} ({ReportWords.Counted(same.Count(), "job", "jobs")})"
            )
            .ToList();
        if (told.Count > 0)
        {
            yield return view.MarkedLine(
                VerdictPrint.Of(Verdict.Unproven),
                new Span("Not proven of the entries themselves: ", Palette.SmallBold),
                new Span(string.Join("; ", told) + ".", Palette.Small)
            );
        }
    }
}
