using System.Collections.Immutable;
using ServiceRules.Application.SafeWork;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Reporting.Layout;
using ServiceRules.Reporting.Reports.Sections;
using ServiceRules.Reporting.Reports.Words;

namespace ServiceRules.Reporting.Reports.SafeWork;

/// <summary>One row a duty: the clause, what the record shows, and on which entries that rests.</summary>
internal static class DutyMatrixSection
{
    /// <summary>What no record shows, whatever is in it.</summary>
    private static readonly ImmutableArray<string> ForAPerson =
    [
        "whether the text in force covers this work and this employer at all",
        "where normal use of the machine ends and servicing begins",
        "whether locks and tags are durable, substantial and alike enough: they have to be seen",
        "whether what was entered is what was done",
    ];

    /// <summary>A reason that takes off so many duties is told.</summary>
    private const int ManyDuties = 6;

    public static IEnumerable<Block> Of(SafeWorkView view)
    {
        yield return Paragraph.Heading(2, "Duty by duty", Palette.Heading);
        var hasClauses = !view.Clauses.Texts.IsEmpty;
        if (hasClauses)
        {
            yield return new Paragraph(Cited(view.Clauses), Palette.TinyQuiet);
        }
        var rows = view
            .Found.All.Where(one => one.Finding.Verdict != Verdict.NotApplicable)
            .Where(one => one.Kind != SafeWorkKind.Programme)
            .OrderBy(one => one.Kind)
            .ThenBy(one => view.LetterOf(one) is null ? 1 : 0)
            .ToList();
        if (rows.Count > 0)
        {
            yield return new Table(
                Widths(hasClauses),
                new TableRow(
                    Cells(hasClauses, Head(""), Head("duty"), Head("clause"), Head("record"), Head("entries"))
                ),
                [.. rows.Select(one => RowOf(view, one, hasClauses))],
                new TableStyle(3, 1.2, Palette.HairLine) { HeaderLine = Palette.Outline }
            );
        }
        yield return new Paragraph([
            new Span("Does not apply: ", Palette.TinyBold),
            new Span(NotApplied(view), Palette.Tiny),
        ]);
        yield return new Paragraph([
            new Span("For a person to decide: ", Palette.TinyBold),
            new Span(string.Join("; ", ForAPerson) + ".", Palette.Tiny),
        ]);
    }

    private static ImmutableArray<ColumnWidth> Widths(bool hasClauses) =>
        Only(
            hasClauses,
            ColumnWidth.Fixed(16),
            ColumnWidth.Share(3),
            ColumnWidth.Share(1.1),
            ColumnWidth.Fixed(92),
            ColumnWidth.Share(0.9)
        );

    private static ImmutableArray<Block> Cells(
        bool hasClauses,
        Block letter,
        Block duty,
        Block clause,
        Block record,
        Block entries
    ) => Only(hasClauses, letter, duty, clause, record, entries);

    private static ImmutableArray<T> Only<T>(
        bool hasClauses,
        T letter,
        T duty,
        T clause,
        T record,
        T entries
    ) => hasClauses ? [letter, duty, clause, record, entries] : [letter, duty, record, entries];

    private static TableRow RowOf(SafeWorkView view, SafeWorkFinding one, bool hasClauses)
    {
        var finding = one.Finding;
        var print = one.IsToCome
            ? VerdictPrint.Of(Verdict.NotApplicable) with
            {
                Word = "to come after the work",
            }
            : FindingBlock.Print(finding, VerdictPrint.OfSafeWork(finding.Verdict));
        // What is not shown was told in full on page one, unless another finding told it there.
        var statement =
            finding.Verdict == Verdict.Met || view.IsSummedUp(one)
                ? "  " + string.Join(" ", finding.Notices.Prepend(finding.Statement).Select(view.Job.Say))
                : "";
        return new TableRow(
            Cells(
                hasClauses,
                new Paragraph(view.LetterOf(one) ?? "", Palette.TinyBold),
                new Paragraph([
                    new Span(view.Job.TitleOf(finding), Palette.TinyBold),
                    new Span(statement, Palette.TinyQuiet),
                ]),
                new Paragraph(view.Clauses.For(one.Rule), Palette.Tiny),
                view.Job.MarkedLine(print, new Span(print.Word, Palette.Tiny)),
                new Paragraph(Entries(view, one), Palette.Tiny)
            )
        );
    }

    /// <summary>What nobody entered has no number: that is said, so that nobody looks for it.</summary>
    private static string Entries(SafeWorkView view, SafeWorkFinding one)
    {
        var told = view.Evidence(one.Finding.Evidence);
        return told.Length == 0 && one.IsOpen && !one.IsToCome ? "no such entry" : told;
    }

    private static string Cited(Clauses clauses) =>
        $"Clauses are those of {string.Join("; ", clauses.Texts.Select(text => text.Title))}. Where none stands, the duty is the product's own or the site's.";

    /// <summary>What one reason takes off many duties, such as a claim, is told with that reason.</summary>
    private static string NotApplied(SafeWorkView view)
    {
        var told = view
            .Found.All.Where(one => one.Finding.Verdict == Verdict.NotApplicable)
            .GroupBy(one => one.Finding.Statement, StringComparer.Ordinal)
            .Select(same => (Reason: same.Count() >= ManyDuties ? same.Key : "", Duties: same))
            .GroupBy(one => one.Reason, one => one.Duties, StringComparer.Ordinal)
            .OrderBy(same => same.Key.Length)
            .ThenBy(same => same.Key, StringComparer.Ordinal)
            .Select(same => Told(same.Key, view, same.SelectMany(duties => duties)))
            .ToList();
        return told.Count == 0 ? "nothing of what was asked." : string.Join(" ", told);
    }

    private static string Told(string reason, SafeWorkView view, IEnumerable<SafeWorkFinding> duties)
    {
        var titles = duties
            .Select(one => view.Job.TitleOf(one.Finding).ToLowerInvariant())
            .Distinct(StringComparer.Ordinal)
            .Order(StringComparer.Ordinal)
            .ToList();
        var list = string.Join("; ", titles) + ".";
        return reason.Length == 0 ? list : $"{view.Job.Say(reason).TrimEnd('.')} ({titles.Count}): {list}";
    }

    private static Paragraph Head(string text) => new(text, Palette.TinyQuiet);
}
