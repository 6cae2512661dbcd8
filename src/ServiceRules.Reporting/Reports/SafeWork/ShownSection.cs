using System.Collections.Immutable;
using ServiceRules.Application.SafeWork;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Reporting.Layout;
using ServiceRules.Reporting.Reports.Sections;
using ServiceRules.Reporting.Reports.Words;

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
        var print = StandingPrint.Of(view.Found, view.Job.Assessment.State);
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
            new Stack(
                [
                    title,
                    new Paragraph(Counts(view), Palette.BodyBold),
                    .. HandsInLines.Of(view),
                    .. Registers(view),
                    .. Brought(view),
                ],
                2
            ),
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
        var toCome = duties.Count(one => one.IsToCome);
        var later = toCome == 0 ? "" : $" {toCome} are to come after the work,";
        return $"{state}The record shows {shown}, does not show {With(Verdict.NotMet)}, and does not prove "
            + $"{With(Verdict.Unproven) - toCome};{later} {With(Verdict.NotApplicable)} do not apply.";
    }

    private static IEnumerable<Block> Registers(SafeWorkView view)
    {
        var registers = view
            .Found.Open.Where(one => one.Kind == SafeWorkKind.Programme)
            .Select(one => one.Finding.Statement)
            .Distinct(StringComparer.Ordinal)
            .Count();
        if (registers > 0)
        {
            yield return new Paragraph(
                $"Apart from what was done: {ReportWords.Counted(registers, "entry of the site's registers is", "entries of the site's registers are")} "
                    + "out of date, wrong or missing, told under registers.",
                Palette.Small
            );
        }
    }

    private static IEnumerable<Block> Brought(SafeWorkView view)
    {
        if (BroughtRegisters.Told(view.Job.Assessed.Context) is { } told)
        {
            yield return new Paragraph(
                $"{told} Ask whoever keeps the site's registers which are right.",
                Palette.BodyBold
            );
        }
    }

    private static IEnumerable<Block> Action(SafeWorkView view)
    {
        yield return Paragraph.Heading(2, "Needs action", Palette.Heading);
        var notYet = HandsNotYet.Of(view.Frame).ToList();
        foreach (var told in notYet)
        {
            yield return new Paragraph([
                new Span("Not yet: ", Palette.SmallBold),
                new Span($"{view.Job.Say(told)}.", Palette.Small),
            ]);
        }
        if (!view.DueCauses.Any())
        {
            yield return new Paragraph(
                notYet.Count > 0
                    ? "Of what was done so far no duty that is due by now is open."
                    : "No duty that is due by now is open.",
                Palette.Small
            );
        }
        foreach (var cause in view.DueCauses)
        {
            yield return CauseBlock.Of(view, cause);
        }
        var later = view.Marked.Where(one => one.Told.IsToCome).ToList();
        if (later.Count > 0)
        {
            yield return Paragraph.Heading(
                3,
                "To come after the work, before it goes out",
                Palette.SubHeading
            );
            yield return Columned.Of([.. later.Select(marked => CauseBlock.Line(view, marked))], 3);
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
}
