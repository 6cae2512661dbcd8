using System.Collections.Immutable;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;
using ServiceRules.Reporting.Layout;
using ServiceRules.Reporting.Reports.Drawings;
using ServiceRules.Reporting.Reports.Sections;
using ServiceRules.Reporting.Reports.Words;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Reporting.Reports.SafeWork;

/// <summary>The timeline as lanes: people, energy sources, the machine running, and where findings stand.</summary>
internal static class LanesSection
{
    private const string Legend =
        "Number: event, on the lane of who did it; white: late or copied from paper. Grey bar: hands in. Rising hatch behind it: "
        + "protected. Framed, falling hatch: hands in without shown protection. Source, pale: off and released; hatched: proven dead as "
        + "well; dot a step that takes energy away, tick a proof entered, ring energy given back. Letter: filled not shown, open not "
        + "proven, at the event it shows at. Columns are of equal width. ~ no offset recorded.";

    public static IEnumerable<Block> Of(SafeWorkView view)
    {
        yield return Paragraph.Heading(2, "The timeline", Palette.Heading);
        if (view.Events.IsEmpty)
        {
            yield return new Paragraph("The record has no make-safe or work events.", Palette.Small);
            yield break;
        }
        var overlay = Overlay(view);
        foreach (var shown in view.Events.Chunk(LaneChart.EventsPerChart(view.Events.Length)))
        {
            yield return LaneChart.Of(
                view.Events,
                shown,
                view.Job.Record.People,
                [.. view.Sources],
                ReportPages.TextWidth,
                view.Job.Measure,
                overlay
            );
        }
        yield return new Together(
            new Stack(
                [
                    new Paragraph(Legend, Palette.TinyQuiet),
                    Columned.Of(
                        [
                            .. view
                                .Marked.Where(one => !one.Told.IsToCome)
                                .Select(marked => Line(view, marked)),
                        ],
                        2
                    ),
                ],
                3
            )
        );
    }

    private static Paragraph Line(SafeWorkView view, MarkedFinding marked)
    {
        var finding = marked.Told.Finding;
        var events = view.Evidence(finding.Evidence);
        var print = VerdictPrint.OfSafeWork(finding.Verdict);
        return new Paragraph([
            new Span($"{marked.Letter} ", Palette.TinyBold),
            new Span($"{print.Word}: {view.Job.TitleOf(finding).ToLowerInvariant()}", Palette.Tiny),
            new Span(events.Length == 0 ? "" : $" ({events})", Palette.TinyQuiet),
        ]);
    }

    private static LaneOverlay Overlay(SafeWorkView view) =>
        new()
        {
            Protected = ByPerson(view, person => person.Protected),
            Unprotected = ByPerson(view, person => view.Found.Exemption is null ? person.Unprotected : null),
            Off = BySource(view, source => source.Isolated.And(source.Released)),
            Proven = BySource(view, source => source.Proven),
            Running = view.Stretches(view.Reading.Running),
            Marks = [.. view.Marked.Where(one => !one.Told.IsToCome).Select(marked => MarkOf(view, marked))],
        };

    private static Dictionary<Id<Participant>, ImmutableArray<LaneStretch>> ByPerson(
        SafeWorkView view,
        Func<ProtectedPerson, IntervalSet?> when
    ) =>
        view.People.ToDictionary(
            person => person.Id,
            person => when(person) is { } set ? view.Stretches(set) : []
        );

    private static Dictionary<Id<EnergySource>, ImmutableArray<LaneStretch>> BySource(
        SafeWorkView view,
        Func<SourceReading, IntervalSet> when
    ) =>
        view.Effective.ToDictionary(
            source => source.Source.Id,
            source => view.Stretches(when(SourceReading.Of(view.Reading, source.Source)))
        );

    private static LaneMark MarkOf(SafeWorkView view, MarkedFinding marked)
    {
        var finding = marked.Told.Finding;
        ImmutableArray<int> events = [.. finding.Evidence.Select(view.NumberOf).OfType<int>().Order()];
        // Where energy comes back tells more than where work began.
        var telling = events.FirstOrDefault(number => IsTelling(view.Events[number - 1].Event.Kind));
        var began = events.FirstOrDefault(number =>
            view.Events[number - 1].Event.Kind == TimelineEventKind.WorkStarted
        );
        var at =
            telling > 0 ? telling
            : began > 0 ? began
            : !events.IsEmpty ? events[^1]
            : Missing(view);
        return new LaneMark(marked.Letter, at, finding.Verdict);
    }

    /// <summary>What nobody entered shows where hands first went in, or at the end of what was entered.</summary>
    private static int Missing(SafeWorkView view) =>
        view.Reading.FirstWork is { } work ? view.NumberAt(work.Interval.From) : view.Events[^1].Number;

    private static bool IsTelling(TimelineEventKind kind) =>
        kind
            is TimelineEventKind.MachineStarted
                or TimelineEventKind.TestEnergised
                or TimelineEventKind.LockRemoved
                or TimelineEventKind.TagRemoved
                or TimelineEventKind.BlockageClearedByHand;
}
