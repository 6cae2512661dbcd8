using System.Collections.Immutable;
using System.Globalization;
using ServiceRules.Application.SafeWork;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Reporting.Layout;
using ServiceRules.Reporting.Reports.Words;

namespace ServiceRules.Reporting.Reports.SafeWork;

/// <summary>The first thing read: how many jobs need action, and how all of them stand.</summary>
internal static class PeriodOutcomeSection
{
    /// <summary>Jobs named on page one; all are told with what the report rests on.</summary>
    private const int BroughtMax = 10;

    /// <summary>Files named on page one; those that the report knows by name stand behind it.</summary>
    private const int NamesMax = 6;

    public static Block Of(PeriodView view)
    {
        var needing = view.NeedAction.Count() + view.Period.LeftOut.Contradicting.Length;
        var print = Print(view, needing);
        var style = Palette.Outcome with { Ink = print.Ink };
        var mark = MarkDrawing.Inline(print.Mark, style.Size - 1, style.LineHeight, print.Ink, view.Measure);
        var title = new Row(
            [
                new Column(ColumnWidth.Fixed(style.Size - 1), mark),
                new Column(ColumnWidth.Share(), Paragraph.Heading(1, print.Word, style)),
            ],
            7
        );
        return new Frame(
            new Stack([title, new Paragraph(Told(view), Palette.BodyBold), Counts(view)], 3),
            new FrameStyle(9, 5)
            {
                Fill = Palette.Ground,
                Bar = print.Ink,
                BarWidth = 4,
            }
        );
    }

    private static VerdictPrint Print(PeriodView view, int needing)
    {
        var contradicting = view.Period.LeftOut.Contradicting.Length;
        var all = ReportWords.Counted(view.Jobs.Length + contradicting, "job", "jobs");
        if (needing > 0)
        {
            // Of what contradicts itself the worse counts.
            var isGrave = contradicting > 0 || view.NeedAction.Any(job => job.Gravest == Effect.Stop);
            var mark = isGrave ? Mark.Stop : Mark.Out;
            var told = string.Create(
                CultureInfo.InvariantCulture,
                $"{needing} of {all} {(needing == 1 ? "needs" : "need")} action"
            );
            return new(told, mark, Palette.Stop);
        }
        return view.Programme.IsEmpty
            ? new($"No job of {all} needs action", Mark.In, Palette.In)
            : new($"No job of {all} needs action, the registers do", Mark.Out, Palette.Out);
    }

    private static string Told(PeriodView view)
    {
        var machines = view.Jobs.Select(job => job.Job.Record.Machine.Id).Distinct().Count();
        var places = ReportWords.Counted(machines, "machine or bench", "machines and benches");
        var registers = view.Programme.IsEmpty
            ? ""
            : $" {ReportWords.Sentence(ReportWords.Counted(view.Programme.Length, "entry of the registers is", "entries of the registers are"))} out of date, wrong or missing.";
        var open = view.Jobs.Count(job => job.IsOpen);
        var handsIn = view.Jobs.Count(job => !job.HandsIn.IsEmpty);
        var hands = handsIn == 0 ? "hands in on none" : $"hands in on {handsIn}";
        var going =
            open == 0
                ? ""
                : $" {ReportWords.Counted(open, "job is", "jobs are")} still open, {hands} of them.";
        return $"Safe work as the records of {view.Days} show it, {places}.{Unread(view)}{Brought(view)}{going}{registers}";
    }

    // A file that could not be used was not judged either.
    private static int Count(PeriodView view, SafeWorkStanding standing) =>
        view.With(standing) + (standing == SafeWorkStanding.NotJudged ? view.Period.LeftOut.Unusable : 0);

    private static string Brought(PeriodView view)
    {
        var brought = view
            .Jobs.Where(job => !job.Job.Context.OtherThanTheSites.IsEmpty)
            .Select(job => job.Job.Record.Id.Text)
            .ToList();
        if (brought.Count == 0)
        {
            return "";
        }

        var more =
            brought.Count > BroughtMax
                ? FormattableString.Invariant($" and {brought.Count - BroughtMax} more")
                : "";
        return $" The registers of {ReportWords.Counted(brought.Count, "job", "jobs")} were handed in with the record and are other than the site's: {string.Join(", ", brought.Take(BroughtMax))}{more}.";
    }

    private static string Unread(PeriodView view)
    {
        var left = view.Period.LeftOut;
        if (left.Unusable == 0)
        {
            return "";
        }

        var named = left.Names.Take(NamesMax).ToList();
        var more = left.Unusable - named.Count;
        var rest = more > 0 ? FormattableString.Invariant($" and {more} more") : "";
        return $" {ReportWords.Sentence(ReportWords.Counted(left.Unusable, "file could not be used and is", "files could not be used and are"))} not judged: {string.Join(", ", named)}{rest}.";
    }

    private static Row Counts(PeriodView view)
    {
        ImmutableArray<SafeWorkStanding> all = [.. Enum.GetValues<SafeWorkStanding>()];
        return new Row(
            [
                .. all.Select(standing =>
                {
                    var print = StandingPrint.Of(standing, RecordState.SignedOff);
                    return new Column(
                        ColumnWidth.Share(),
                        view.MarkedLine(
                            print,
                            new Span(
                                Count(view, standing).ToString(CultureInfo.InvariantCulture) + " ",
                                Palette.BodyBold
                            ),
                            new Span(print.Word, Palette.Small)
                        )
                    );
                }),
            ],
            6
        );
    }
}
