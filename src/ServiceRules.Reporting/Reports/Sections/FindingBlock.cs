using System.Collections.Immutable;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Reporting.Layout;
using ServiceRules.Reporting.Reports.Words;

namespace ServiceRules.Reporting.Reports.Sections;

/// <summary>One finding in words: outcome, statement, remedy, who let it out, things to know.</summary>
internal static class FindingBlock
{
    public static Block Of(
        JobView job,
        Finding finding,
        VerdictPrint print,
        HashSet<string>? alreadyTold = null,
        ContradictionsTold? contradictions = null,
        string clause = "",
        int noticesMax = int.MaxValue
    )
    {
        var told = Print(finding, print);
        if (job.DefectTold(finding) is { } defect)
        {
            return ToldElsewhere(job, finding, defect, told);
        }
        var lines = ImmutableArray.CreateBuilder<Block>();
        var (statement, isReference) =
            contradictions?.Of(finding, job.TitleOf(finding)) ?? (finding.Statement, false);
        lines.Add(
            new Paragraph([
                new Span($"{ReportWords.Sentence(told.Word)} · ", job.ToldBold with { Ink = told.Ink }),
                new Span(job.Say(statement), job.Told),
                new Span($"  {job.TitleOf(finding)}", job.ToldQuiet),
                new Span(clause.Length == 0 ? "" : $"  {clause}", job.ToldBold),
            ])
        );
        var todo = ToDo(job, finding);
        if (todo.Length > 0)
        {
            var repeated = alreadyTold?.Add(todo) == false;
            lines.Add(
                isReference ? new Paragraph("What to do: as there.", job.ToldQuiet)
                : repeated ? new Paragraph("What to do: as above.", job.ToldQuiet)
                : new Paragraph(todo, job.Told)
            );
        }
        if (finding.LetOut is { } letOut)
        {
            lines.Add(new Paragraph($"Let out: {letOut}", job.ToldBold));
        }
        var notices = (contradictions?.NoticesOf(finding) ?? finding.Notices).ToList();
        lines.AddRange(
            notices.Take(noticesMax).Select(notice => new Paragraph(job.Say(notice), job.ToldQuiet))
        );
        if (notices.Count > noticesMax)
        {
            lines.Add(
                new Paragraph(
                    $"and {notices.Count - noticesMax} more of the kind, in the attached assessment",
                    job.ToldQuiet
                )
            );
        }
        var mark = MarkDrawing.Inline(told.Mark, job.Told.Size, job.Told.LineHeight, told.Ink, job.Measure);
        return new Row(
            [
                new Column(ColumnWidth.Fixed(8), mark),
                new Column(ColumnWidth.Share(), new Stack(lines.ToImmutable())),
            ],
            4
        );
    }

    /// <summary>Told in full under safe work, what to do included: here it is named.</summary>
    private static Row ToldElsewhere(JobView job, Finding finding, Finding defect, VerdictPrint told) =>
        job.MarkedLine(
            told,
            new Span($"{ReportWords.Sentence(told.Word)} · ", job.ToldBold with { Ink = told.Ink }),
            new Span(InSafeWork(job, defect), job.Told),
            new Span($"  {job.TitleOf(finding)}", job.ToldQuiet)
        );

    /// <summary>Where a defect of a unit is told that keeps the whole job in.</summary>
    public static string InSafeWork(JobView job, Finding defect) =>
        $"told under safe work: {job.TitleOf(defect).ToLowerInvariant()}";

    /// <summary>What stops is marked so, whatever its word.</summary>
    public static VerdictPrint Print(Finding finding, VerdictPrint print) =>
        finding.Effect == Effect.Stop ? print with { Mark = Mark.Stop, Ink = Palette.Stop } : print;

    /// <summary>What is to be done about it; empty: nothing.</summary>
    public static string ToDo(JobView job, Finding finding) =>
        finding.Verdict is Verdict.Met or Verdict.NotApplicable ? ""
        : finding.Remedy is null ? RemedyText.Whole(job.Say(job.Rule(finding.Rule)?.Advice ?? ""))
        : string.Join("\n", RemedyText.Of(job.Say, finding.Remedy, job.SystemOf(finding)));
}
