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
        var shown = job.JobFindings.Where(finding => finding.Verdict == Verdict.Met).ToList();
        if (shown.Count > 0)
        {
            yield return job.MarkedLine(
                VerdictPrint.OfSafeWork(Verdict.Met),
                new Span("Record shows: ", job.ToldBold),
                new Span(
                    string.Join("; ", shown.Select(finding => job.TitleOf(finding).ToLowerInvariant())) + ".",
                    job.Told
                )
            );
        }
    }
}
