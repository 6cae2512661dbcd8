using System.Collections.Immutable;
using ServiceRules.Application.SafeWork;
using ServiceRules.Reporting.Layout;
using ServiceRules.Reporting.Reports.Sections;
using ServiceRules.Reporting.Reports.Words;

namespace ServiceRules.Reporting.Reports.SafeWork;

/// <summary>What leaves a duty open, in full; where it touches several, once, with the list of them.</summary>
internal static class CauseBlock
{
    /// <summary>One fault after another of one kind hides the next kind.</summary>
    private const int NoticesMax = 5;

    private const int ListColumns = 3;

    public static Row Of(SafeWorkView view, MarkedCause cause) =>
        new(
            [
                new Column(ColumnWidth.Fixed(13), new Paragraph(cause.Marked[0].Letter, Palette.SmallBold)),
                new Column(ColumnWidth.Share(), Told(view, cause)),
            ],
            2
        );

    private static Block Told(SafeWorkView view, MarkedCause cause)
    {
        var finding = cause.Cause.First;
        var print = VerdictPrint.OfSafeWork(finding.Verdict);
        // What one finding sums up is told by that finding alone; the others stand under it by their titles.
        return cause.Cause.IsOfHands
                ? new Stack([Whole(view, cause), List(view, cause.Marked.RemoveAt(0))], 1)
            : cause.Cause.IsOfSeveral
                ? new Stack(
                    [OfSeveral(view, cause, FindingBlock.Print(finding, print)), List(view, cause.Marked)],
                    1
                )
            : Whole(view, cause);
    }

    private static Block Whole(SafeWorkView view, MarkedCause cause) =>
        FindingBlock.Of(
            view.Job,
            cause.Cause.First,
            VerdictPrint.OfSafeWork(cause.Cause.First.Verdict),
            clause: view.Clauses.For(cause.Marked[0].Told.Rule),
            noticesMax: NoticesMax
        );

    private static Row OfSeveral(SafeWorkView view, MarkedCause cause, VerdictPrint print)
    {
        var events = view.Evidence(cause.Cause.Evidence);
        var todo = FindingBlock.ToDo(view.Job, cause.Cause.First);
        return view.Job.MarkedLine(
            print,
            todo.Length == 0 ? null : new Paragraph(todo, Palette.Small),
            new Span(
                $"{ReportWords.Sentence(print.Word)}, {cause.Marked.Length} duties ({cause.Letters}) · ",
                Palette.SmallBold with
                {
                    Ink = print.Ink,
                }
            ),
            new Span(view.Job.Say(Statement(cause.Cause)), Palette.Small),
            new Span(events.Length == 0 ? "" : $" ({events})", Palette.SmallQuiet)
        );
    }

    private static string Statement(Cause cause) =>
        cause.IsOfCredibility
            ? "The record has entries for each of these, and they are not credible enough to prove it; why stands below."
            : string.Join(" ", cause.Statements);

    private static Row List(SafeWorkView view, ImmutableArray<MarkedFinding> marked) =>
        Columned.Of([.. marked.Select(one => Line(view, one))], ListColumns);

    /// <summary>A duty by its letter, its title and its clause.</summary>
    public static Paragraph Line(SafeWorkView view, MarkedFinding marked) =>
        new([
            new Span($"{marked.Letter} ", Palette.SmallBold),
            new Span(view.Job.TitleOf(marked.Told.Finding).ToLowerInvariant(), Palette.Small),
            new Span($"  {view.Clauses.For(marked.Told.Rule)}", Palette.SmallQuiet),
        ]);
}
