using System.Collections.Immutable;
using System.Globalization;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;
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
        foreach (var chunk in timeline.Events.Chunk(EventsInChart(timeline.Events.Length)))
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

    /// <summary>Charts of about equal length, rather than a last one with two events.</summary>
    private static int EventsInChart(int events)
    {
        var charts = Math.Max(1, (events + LaneChart.EventsMax - 1) / LaneChart.EventsMax);
        return Math.Max(1, (events + charts - 1) / charts);
    }

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
        var day = DateOnly.TryParseExact(
            TimePrint.Day(one.Event.At),
            "yyyy-MM-dd",
            CultureInfo.InvariantCulture,
            DateTimeStyles.None,
            out var date
        );
        var other = day && date != job.Record.Date ? $"{TimePrint.Day(one.Event.At)} " : "";
        return new Paragraph([
            new Span($"{number} ", Palette.TinyBold),
            new Span($"{other}{TimePrint.Clock(one.Event.At)} ", Palette.TinyQuiet),
            new Span($"{one.Event.Actor.Text}: {job.Say(Told(one.Event))}", Palette.Tiny),
        ]);
    }

    private static string Told(TimelineEvent one)
    {
        string?[] details =
        [
            one.Source switch
            {
                SourceReference.One named => named.Source.Text.Replace('_', ' '),
                SourceReference.All => "all sources",
                SourceReference.GroupBox => "group box",
                _ => null,
            },
            one.Isolator?.Replace('_', ' '),
            one.Position is { } position ? position.ToString().ToLowerInvariant() : null,
            one.Lock is { } device ? $"lock {device.Text}" : null,
            one.AtLockPoint ? "at the lock point" : null,
            one.Pressure?.ToString(),
            one.Method,
            one.Reason,
            one.Exception is { } exception ? $"exception: {exception}" : null,
            one.Others.IsEmpty ? null : $"with {string.Join(", ", one.Others.Select(other => other.Text))}",
            one.Mark == EntryMark.AtTheTime ? null : ReportWords.Of(one.Mark),
        ];
        var told = string.Join(", ", details.OfType<string>());
        return told.Length == 0 ? ReportWords.Of(one.Kind) : $"{ReportWords.Of(one.Kind)} ({told})";
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
