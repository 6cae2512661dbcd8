using System.Collections.Immutable;
using System.Globalization;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Reporting.Layout;
using ServiceRules.Reporting.Reports.Words;
using ServiceRules.Rules.Model;

namespace ServiceRules.Reporting.Reports.Wall;

/// <summary>What turning each adjuster makes void, how far one step goes, and in which direction to finish.</summary>
internal static class WallTurning
{
    public static Table Of(LimitSheet sheet, ReportTerms terms, WallType type) =>
        new(
            [ColumnWidth.Share(), ColumnWidth.Share(1.25), ColumnWidth.Share(2.75)],
            Row(type.Bold, "turned", "one step; finish", "read again afterwards, besides what it sets"),
            [
                // What tells nothing of its own stands in one row, last.
                .. sheet
                    .Adjusters.GroupBy(adjuster =>
                        Turned(adjuster).Length == 0 && adjuster.Disturbs.IsEmpty ? "" : $"{adjuster.Kind}"
                    )
                    .OrderBy(alike => alike.Key.Length == 0)
                    .Select(alike => new TableRow([
                        new Paragraph(Names(alike, terms), type.Bold),
                        new Paragraph(Turned(alike.First()), type.Body),
                        new Paragraph(Say(Voided(alike.First()), terms), type.Body),
                    ])),
            ],
            type.Lines
        );

    private static string Say(string text, ReportTerms terms) => TradeVocabulary.Say(text, terms.Trade);

    private static TableRow Row(TextStyle style, params string[] cells) =>
        new([.. cells.Select(Block (cell) => new Paragraph(cell, style))]);

    private static string Names(IEnumerable<Adjuster> alike, ReportTerms terms) =>
        Say(
            ReportWords.Sentence(string.Join(", ", alike.Select(adjuster => ReportWords.Of(adjuster.Kind)))),
            terms
        );

    private static string Turned(Adjuster adjuster)
    {
        var step = adjuster switch
        {
            { Step: { } print } => print.ToString(),
            { Thread: { } thread } => ScrewOf(thread),
            _ => "",
        };
        var heights =
            adjuster.Kind
            is AdjusterKind.Height
                or AdjusterKind.HeightRange
                or AdjusterKind.FrontRoller
                or AdjusterKind.Groomer;
        var finish = adjuster.Finish switch
        {
            FinishDirection.Opening => heights ? "finish raising" : "finish opening",
            FinishDirection.Closing => heights ? "finish lowering" : "finish closing",
            _ => "",
        };
        return string.Join("; ", new[] { step, finish }.Where(part => part.Length > 0));
    }

    private static string ScrewOf(AdjusterThread thread)
    {
        var ratio = thread.Ratio is { } known and not 1
            ? string.Create(CultureInfo.InvariantCulture, $", moves {known:0.####} of it")
            : "";
        return string.Create(
            CultureInfo.InvariantCulture,
            $"1/{thread.Parts} turn of a {thread.Pitch} screw{ratio}"
        );
    }

    private static string Voided(Adjuster adjuster)
    {
        ImmutableArray<string> parts =
        [
            .. adjuster
                .Disturbs.Where(one => one.ShiftPerStep is null)
                .Select(one => ReportWords.Of(one.Quantity)),
            .. adjuster.Disturbs.Where(one => one.ShiftPerStep is not null).Select(Carried),
        ];
        return parts.IsEmpty ? "nothing else" : string.Join("; ", parts);
    }

    private static string Both(DualPrint print) =>
        print.Alternate is { } other ? $"{print.Governing}, {other}" : $"{print.Governing}";

    private static string Carried(Disturbance one) =>
        one.StaleAfterSteps is { } most
            ? string.Create(
                CultureInfo.InvariantCulture,
                $"{ReportWords.Of(one.Quantity)} after more than {most} steps (each may shift it by {Both(one.ShiftPerStep!)})"
            )
            : $"{ReportWords.Of(one.Quantity)}: each step may shift it by {Both(one.ShiftPerStep!)}";
}
