using System.Collections.Immutable;
using ServiceRules.Application.SafeWork;
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
        + "protected. Framed, falling hatch: hands in without shown protection, by the bench log or a step alone: in the column of its time; neither: not proven. Source, pale: off and released; hatched: proven dead as "
        + "well; dot a step that takes energy away, tick a proof entered, ring energy given back. Letter: filled not shown, open not "
        + "proven, at the event where it begins. Columns are of equal width. ~ no offset recorded.";

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
                    Columned.Of([.. view.DueCauses.Select(cause => Line(view, cause))], 2),
                ],
                3
            )
        );
    }

    private static Paragraph Line(SafeWorkView view, MarkedCause marked)
    {
        var cause = marked.Cause;
        var events = view.Evidence(cause.Evidence);
        var print = VerdictPrint.OfSafeWork(cause.First.Verdict);
        var what =
            cause.IsOfSeveral && cause.IsOfCredibility
                ? $"{cause.Findings.Length} duties, {Cause.NotCredible}"
            : cause.IsOfSeveral
                ? $"{view.Job.TitleOf(cause.First).ToLowerInvariant()} ({cause.Findings.Length} duties for one reason)"
            : view.Job.TitleOf(cause.First).ToLowerInvariant();
        return new Paragraph([
            new Span($"{marked.Letters} ", Palette.TinyBold),
            new Span($"{print.Word}: {what}", Palette.Tiny),
            new Span(events.Length == 0 ? "" : $" ({events})", Palette.TinyQuiet),
        ]);
    }

    private static LaneOverlay Overlay(SafeWorkView view) =>
        new()
        {
            Protected = ByPerson(view, person => person.Protected?.Without(person.NotProven)),
            Unprotected = view.People.ToDictionary(person => person.Id, person => Bare(view, person)),
            Off = BySource(view, source => source.Isolated.And(source.Released)),
            Proven = BySource(view, source => source.Verified),
            Running = view.Stretches(view.Reading.Running),
            Marks =
            [
                .. view.DueCauses.Select(cause => new LaneMark(
                    cause.Marked[0].Letter,
                    LetterPlace.Of(view, cause),
                    cause.Cause.First.Verdict
                )),
            ],
        };

    // What the bench log alone tells stands in the column of its time, a step in its own.
    private static ImmutableArray<LaneStretch> Bare(SafeWorkView view, ProtectedPerson person) =>
        view.Found.Exemption is not null
            ? []
            :
            [
                .. person.Unprotected is { } bare ? view.Stretches(bare) : [],
                .. person
                    .Logged.Select(one => one.After)
                    .Concat(person.Steps.Where(step => step.IsBare).Select(step => step.Number))
                    .Distinct()
                    .Select(after => new LaneStretch(after, after < view.Events.Length ? after + 1 : null)),
            ];

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
}
