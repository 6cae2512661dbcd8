using System.Collections.Immutable;
using System.Globalization;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Reporting.Layout;
using ServiceRules.Reporting.Reports.Drawings;
using ServiceRules.Reporting.Reports.Words;

namespace ServiceRules.Reporting.Reports.Sections;

/// <summary>Make-safe and work as lanes by person and source, the events in words, and what the record shows.</summary>
internal static class SafeWorkSection
{
    private const int ListColumns = 3;

    public static IEnumerable<Block> Of(JobView job, double width)
    {
        yield return Paragraph.Heading(2, "Safe work: what the record shows", job.Heading);
        var timeline = new TimelineView(job);
        foreach (var chunk in timeline.Events.Chunk(LaneChart.EventsPerChart(timeline.Events.Length)))
        {
            yield return Lanes(job, timeline, chunk, width);
            yield return Columned.Of([.. chunk.Select(one => Line(job, one))], ListColumns);
        }
        if (timeline.Events.IsEmpty)
        {
            yield return new Paragraph("The record has no make-safe or work events.", Palette.Small);
        }
        else
        {
            yield return new Paragraph(Legend, Palette.TinyQuiet);
        }
        foreach (var block in Findings(job))
        {
            yield return block;
        }
    }

    private const string Legend =
        "Number: event, on the lane of who did it; white: late or copied from paper. Grey: hands-on work. Green: source held; "
        + "dot taken, tick proven, ring given back. ~ no offset recorded.";

    private static Picture Lanes(JobView job, TimelineView timeline, NumberedEvent[] shown, double width)
    {
        ImmutableArray<EnergySource> sources =
        [
            .. job
                .Assessed.Context.Procedures.SelectMany(procedure => procedure.Sources)
                .DistinctBy(source => source.Id),
        ];
        return LaneChart.Of(timeline.Events, shown, job.Record.People, sources, width, job.Measure);
    }

    private static Paragraph Line(JobView job, NumberedEvent one)
    {
        var number = one.Number.ToString(CultureInfo.InvariantCulture);
        return new Paragraph([
            new Span($"{number} ", Palette.TinyBold),
            new Span($"{EventPrint.When(one.Event.At, job.Record.Date)} ", Palette.TinyQuiet),
            new Span($"{one.Event.Actor.Text}: {job.Say(EventPrint.Told(one.Event))}", Palette.Tiny),
        ]);
    }

    private static IEnumerable<Block> Findings(JobView job)
    {
        var findings = job
            .JobFindings.Where(finding => finding.Verdict is Verdict.NotMet or Verdict.Unproven)
            .OrderByDescending(finding => finding.Effect);
        foreach (var finding in findings)
        {
            yield return FindingBlock.Of(job, finding, VerdictPrint.OfSafeWork(finding.Verdict));
        }
        var registers = job
            .ProgrammeFindings.Where(finding => finding.Verdict is Verdict.NotMet or Verdict.Unproven)
            .Select(finding => job.Say(finding.Statement))
            .Distinct(StringComparer.Ordinal)
            .ToList();
        if (registers.Count > 0)
        {
            yield return new Paragraph([
                new Span("Registers of the site, of no weight on this job: ", job.ToldBold),
                new Span(string.Join(" ", registers), job.Told),
            ]);
        }
        var shown = job.JobFindings.Where(finding => finding.Verdict == Verdict.Met).ToList();
        if (shown.Count > 0)
        {
            yield return job.MarkedLine(
                VerdictPrint.OfSafeWork(Verdict.Met),
                new Span("Record shows: ", job.ToldBold),
                new Span(Shown(job, shown), job.Told)
            );
        }
    }

    /// <summary>A sheet of quick checks must stay one page: there duties that are shown are told by their number.</summary>
    private static string Shown(JobView job, List<Finding> shown)
    {
        var counted = job.IsBrief ? shown.Where(finding => job.IsCountedDuty(finding.Rule)).ToList() : [];
        var titles = shown.Except(counted).Select(finding => job.TitleOf(finding).ToLowerInvariant());
        var more =
            counted.Count == 0
                ? Enumerable.Empty<string>()
                :
                [
                    ReportWords.Counted(
                        counted.Count,
                        "duty of safe work or check of entries",
                        "duties of safe work and checks of entries"
                    ),
                ];
        return string.Join("; ", titles.Concat(more)) + ".";
    }
}
