using System.Collections.Immutable;
using System.Globalization;
using ServiceRules.Domain.Timeline;
using ServiceRules.Reporting.Layout;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Evaluation.Duties;

namespace ServiceRules.Reporting.Reports.SafeWork;

/// <summary>
/// Runs of the machine during the job: nobody is locked out of them, so who ran it, what kept people from what turns, who
/// said so and who stood at the stop is told of each.
/// </summary>
internal static class RunsSection
{
    private static readonly ImmutableArray<ColumnWidth> Widths =
    [
        ColumnWidth.Share(1),
        ColumnWidth.Share(1),
        ColumnWidth.Share(2),
        ColumnWidth.Share(1),
    ];

    public static IEnumerable<Block> Of(SafeWorkView view)
    {
        var runs = RunShown.Of(view.Frame);
        if (runs.IsEmpty)
        {
            yield break;
        }
        yield return Paragraph.Heading(
            2,
            "Runs of the machine during the job, and what kept people from it",
            Palette.Heading
        );
        yield return new Table(
            Widths,
            new TableRow([
                .. new[] { "run, for", "who ran it", "measures entered before it", "at the stop" }.Select(
                    text => new Paragraph(text, Palette.TinyQuiet)
                ),
            ]),
            [.. runs.Select(run => RowOf(view, run))],
            new TableStyle(3, 1.2, Palette.HairLine) { HeaderLine = Palette.Outline }
        );
        yield return new Paragraph(
            "As entered: what the record shows against it stands with its letter above, and in the duties below.",
            Palette.TinyQuiet
        );
    }

    private static TableRow RowOf(SafeWorkView view, RunShown run) =>
        new([
            new Paragraph([
                new Span(When(view, run), Palette.TinyBold),
                new Span($", for {run.For}", Palette.Tiny),
            ]),
            Cell(Who(run)),
            Cell(
                run.Measures.IsEmpty
                    ? "none"
                    : string.Join("; ", run.Measures.Select(entry => Said(view, entry)))
            ),
            Cell(AtTheStop(run)),
        ]);

    private static string When(SafeWorkView view, RunShown run)
    {
        var from = run.IsStartShown ? At(view, run.Start) : "start not shown";
        return run.End is { } end && end != run.Start ? $"{from} to {At(view, end)}"
            : run.IsStartShown ? $"{from}, end not shown"
            : $"{from}, until {At(view, run.Start)}";
    }

    private static string At(SafeWorkView view, OrderedEvent entry) =>
        string.Create(
            CultureInfo.InvariantCulture,
            $"{view.When(entry.Event.At)} ({view.NumberAt(new(entry.Moment, entry.Index))})"
        );

    private static string Who(RunShown run)
    {
        List<string> told =
        [
            run.IsStartShown ? $"started by {run.Start.Event.Actor.Text}" : "who started it is not shown",
        ];
        if (!run.Performers.IsEmpty)
        {
            told.Add($"task by {string.Join(", ", run.Performers.Select(one => one.Text))}");
        }
        if (run.End is { } end)
        {
            told.Add($"{EventWord(end)} by {end.Event.Actor.Text}");
        }
        return string.Join("; ", told);
    }

    private static string EventWord(OrderedEvent end) =>
        end.Event.Kind == TimelineEventKind.MachineShutDown ? "shut down" : "ended";

    private static string Said(SafeWorkView view, OrderedEvent entry)
    {
        var measures = entry.Event.Measures.IsEmpty
            ? "none by name"
            : string.Join(", ", entry.Event.Measures.Select(MeasureWords.Of));
        var others = entry.Event.Others.IsEmpty
            ? ""
            : $", naming {string.Join(", ", entry.Event.Others.Select(one => one.Text))}";
        var words = entry.Event.Method is { } method ? $" ({view.Job.Say(method)})" : "";
        return $"{entry.Event.Actor.Text} at {At(view, entry)}: {measures}{others}{words}";
    }

    private static string AtTheStop(RunShown run) =>
        !run.IsStopSaid ? "nobody said to be"
        : run.AtTheStop.IsEmpty ? "a second person is said to be, and not shown"
        : string.Join(", ", run.AtTheStop.Select(one => one.Text))
            + (run.IsStopNamed ? "" : ", not named by the entry");

    private static Paragraph Cell(string text) => new(text, Palette.Tiny);
}
