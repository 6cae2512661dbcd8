using System.Collections.Immutable;
using ServiceRules.Application.SafeWork;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Reporting.Layout;
using ServiceRules.Reporting.Reports.Sections;
using ServiceRules.Reporting.Reports.Words;
using ServiceRules.Rules.Model;

namespace ServiceRules.Reporting.Reports.SafeWork;

/// <summary>The first thing read: what the record shows and does not show, and what needs action.</summary>
internal static class ShownSection
{
    public static IEnumerable<Block> Of(SafeWorkView view)
    {
        yield return Box(view);
        foreach (var block in Action(view))
        {
            yield return block;
        }
    }

    private static Frame Box(SafeWorkView view)
    {
        var print = StandingPrint.Of(view.Found.Standing, view.Job.Assessment.State);
        var style = Palette.Outcome with { Ink = print.Ink };
        var mark = MarkDrawing.Inline(
            print.Mark,
            style.Size - 1,
            style.LineHeight,
            print.Ink,
            view.Job.Measure
        );
        var title = new Row(
            [
                new Column(ColumnWidth.Fixed(style.Size - 1), mark),
                new Column(
                    ColumnWidth.Share(),
                    Paragraph.Heading(1, ReportWords.Sentence(print.Word), style)
                ),
            ],
            7
        );
        return new Frame(
            new Stack([title, new Paragraph(Counts(view), Palette.BodyBold), .. Hands(view)], 2),
            new FrameStyle(9, 5)
            {
                Fill = Palette.Ground,
                Bar = print.Ink,
                BarWidth = 4,
            }
        );
    }

    private static string Counts(SafeWorkView view)
    {
        var duties = view.Found.All.Where(one => one.Kind == SafeWorkKind.Duty).ToList();
        int With(Verdict verdict) => duties.Count(one => one.Finding.Verdict == verdict);
        var state = view.Job.Assessment.State == RecordState.Open ? "The job is still open. " : "";
        var shown = ReportWords.Counted(With(Verdict.Met), "duty", "duties");
        return $"{state}The record shows {shown}, does not show {With(Verdict.NotMet)}, and does not prove "
            + $"{With(Verdict.Unproven)}; {With(Verdict.NotApplicable)} do not apply.";
    }

    private static IEnumerable<Block> Hands(SafeWorkView view)
    {
        foreach (var person in view.People)
        {
            yield return new Paragraph([
                new Span($"{person.Id.Text}: ", Palette.SmallBold),
                new Span(Hands(view, person), Palette.Small),
            ]);
        }
        if (view.People.IsEmpty)
        {
            yield return new Paragraph("The record names nobody with hands in.", Palette.Small);
        }
    }

    private static string Hands(SafeWorkView view, ProtectedPerson person)
    {
        if (person.Work.Intervals.IsEmpty)
        {
            return "the record shows no hands-on work.";
        }
        var work = $"hands in {view.Told(person.Work, "")}, {WorkTime.Of(person.Work, view)}";
        return view.Found.Exemption is { } exemption
                ? $"{work}; no lockout: {view.Job.TitleOf(exemption.Finding).ToLowerInvariant()} ({view.Evidence(exemption.Finding.Evidence)})."
            : person.Unprotected is not { } bare
                ? $"{work}; protection cannot be told: no written procedure is registered for this machine."
            : bare.Intervals.IsEmpty && !IsProtected(view)
                ? $"{work}; not proven that everybody's work was inside the protected interval."
            : bare.Intervals.IsEmpty ? $"{work}, all of it protected from {Sources(view)}."
            : $"{work}; of it not shown as protected: {view.Told(bare, "")}, {WorkTime.Of(bare, view)}.";
    }

    private static bool IsProtected(SafeWorkView view) =>
        view.Found.All.Any(one => one.Rule.Check is Check.Protection && one.Finding.Verdict == Verdict.Met);

    private static string Sources(SafeWorkView view) =>
        view.Effective is { Length: > 1 and var count } ? $"all {count} energy sources"
        : view.Effective.Length == 1 ? "the one energy source"
        : "what the procedure names";

    private static IEnumerable<Block> Action(SafeWorkView view)
    {
        yield return Paragraph.Heading(2, "Needs action", Palette.Heading);
        if (view.Marked.All(one => one.Told.IsToCome))
        {
            yield return new Paragraph("No duty that is due by now is open.", Palette.Small);
        }
        foreach (var marked in view.Marked.Where(one => !one.Told.IsToCome))
        {
            yield return Lettered(
                marked.Letter,
                FindingBlock.Of(
                    view.Job,
                    marked.Told.Finding,
                    VerdictPrint.OfSafeWork(marked.Told.Finding.Verdict),
                    clause: view.Clauses.For(marked.Told.Rule)
                )
            );
        }
        var later = view.Marked.Where(one => one.Told.IsToCome).ToList();
        if (later.Count > 0)
        {
            yield return Paragraph.Heading(
                3,
                "To come after the work, before it goes out",
                Palette.SubHeading
            );
            yield return Columned.Of(
                [
                    .. later.Select(marked => new Paragraph([
                        new Span($"{marked.Letter} ", Palette.SmallBold),
                        new Span(view.Job.TitleOf(marked.Told.Finding).ToLowerInvariant(), Palette.Small),
                        new Span($"  {view.Clauses.For(marked.Told.Rule)}", Palette.SmallQuiet),
                    ])),
                ],
                3
            );
        }
        ImmutableArray<SafeWorkFinding> doubts =
        [
            .. view.Found.Open.Where(one => one.Kind == SafeWorkKind.Credibility),
        ];
        if (doubts.IsEmpty)
        {
            yield break;
        }
        yield return Paragraph.Heading(
            3,
            "How far the entries can be taken at their word",
            Palette.SubHeading
        );
        foreach (var doubt in doubts)
        {
            yield return FindingBlock.Of(
                view.Job,
                doubt.Finding,
                VerdictPrint.OfSafeWork(doubt.Finding.Verdict)
            );
        }
    }

    private static Row Lettered(string letter, Block told) =>
        new(
            [
                new Column(ColumnWidth.Fixed(13), new Paragraph(letter, Palette.SmallBold)),
                new Column(ColumnWidth.Share(), told),
            ],
            2
        );
}
