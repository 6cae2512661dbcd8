using System.Collections.Immutable;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Reporting.Layout;
using ServiceRules.Reporting.Reports.Words;
using ServiceRules.Rules.Model;

namespace ServiceRules.Reporting.Reports.Wall;

/// <summary>The table of limits: every figure in both systems, where it is read, and the number of what it rests on.</summary>
internal static class WallLimits
{
    private const double FigureWidth = 92;
    private const double GroundWidth = 40;

    // Spaces that no line break swallows.
    private const string Indent = "\u00a0\u00a0\u00a0";

    /// <summary>Whether any figure had to be worked out from the other system.</summary>
    public static bool HasCarried(LimitSheet sheet) =>
        sheet
            .Quantities.SelectMany(Figures)
            .Any(line => line.Prints.Any(print => print.Print.Alternate is null));

    public static Table Of(LimitSheet sheet, IReadOnlyList<Basis> grounds, ReportTerms terms, WallType type)
    {
        ImmutableArray<ColumnWidth> columns =
        [
            ColumnWidth.Share(1.25),
            ColumnWidth.Fixed(FigureWidth * type.Scale),
            ColumnWidth.Fixed(FigureWidth * type.Scale),
            ColumnWidth.Share(),
            ColumnWidth.Fixed(GroundWidth),
        ];
        var head = Row(
            new Paragraph("what", type.Bold),
            new Paragraph("mm", type.Bold),
            new Paragraph("in", type.Bold),
            new Paragraph("read", type.Bold),
            new Paragraph("rests on", type.Quiet, Align.Right)
        );
        return new Table(
            columns,
            head,
            [.. sheet.Quantities.SelectMany(limit => Rows(limit, grounds, terms, type))],
            type.Lines
        );
    }

    private static IEnumerable<TableRow> Rows(
        QuantityLimit limit,
        IReadOnlyList<Basis> grounds,
        ReportTerms terms,
        WallType type
    )
    {
        var name = Say(ReportWords.Sentence(ReportWords.Of(limit.Quantity)), terms);
        var ground = $"{grounds.ToList().IndexOf(limit.Basis) + 1}";
        var isFirst = true;
        foreach (var line in Figures(limit))
        {
            yield return Row(
                isFirst
                    ? new Paragraph([
                        new Span(name, type.Bold),
                        new Span($"  {Say(line.Name, terms)}", type.Body),
                    ])
                    : new Paragraph(Indent + Say(line.Name, terms), type.Body),
                Cell(line, UnitSystem.Metric, type),
                Cell(line, UnitSystem.Inch, type),
                new Paragraph(isFirst ? Stations(limit) : "", type.Quiet),
                new Paragraph(isFirst ? ground : "", type.Quiet, Align.Right)
            );
            isFirst = false;
        }

        foreach (var said in Said(limit, isFirst))
        {
            yield return Row(
                isFirst
                    ? new Paragraph([new Span(name, type.Bold), new Span($"  {said}", type.Body)])
                    : new Paragraph(Indent + Say(said, terms), type.Body),
                new Paragraph("", type.Body),
                new Paragraph("", type.Body),
                new Paragraph(isFirst ? Stations(limit) : "", type.Quiet),
                new Paragraph(isFirst ? ground : "", type.Quiet, Align.Right)
            );
            isFirst = false;
        }
    }

    private static string Say(string text, ReportTerms terms) => TradeVocabulary.Say(text, terms.Trade);

    private static TableRow Row(params Block[] cells) => new([.. cells]);

    private static Paragraph Cell(LimitLine line, UnitSystem system, WallType type)
    {
        var parts = line
            .Prints.Select(one => (one.Print, Figure: CarriedFigure.Of(one.Print, system, one.Bound)))
            .ToList();
        var carried = parts.All(part => part.Figure.IsPrinted) ? "" : "≈ ";
        var text = carried + line.Lead + string.Join(" to ", parts.Select(part => part.Figure.Text));
        var governs = parts.All(part => part.Print.Governing.System == system);
        return new Paragraph(text, governs ? type.Bold : type.Body);
    }

    private static IEnumerable<LimitLine> Figures(QuantityLimit limit)
    {
        if (limit.Lower is not null || limit.Upper is not null)
        {
            yield return (limit.Lower, limit.Upper) switch
            {
                ({ } lower, { } upper) => new(
                    "",
                    "",
                    [(lower, FigureBound.AtLeast), (upper, FigureBound.AtMost)]
                ),
                ({ } lower, null) => new("at least", "", [(lower, FigureBound.AtLeast)]),
                _ => new("at most", "", [(limit.Upper!, FigureBound.AtMost)]),
            };
        }

        (string Name, string Lead, DualPrint? Print, FigureBound Bound)[] lines =
        [
            ("aim at", "", limit.Target, FigureBound.Nominal),
            ("about the target of the setting order", "± ", limit.ToleranceAboutTarget, FigureBound.AtMost),
            ("one end above the other, at most", "", limit.SideToSide, FigureBound.AtMost),
            ("between the units of a machine, at most", "", limit.AcrossUnits, FigureBound.AtMost),
            ("step between neighbouring ends, at most", "", limit.AdjacentEnds, FigureBound.AtMost),
            ("out of parallel, at most", "", limit.Parallelism, FigureBound.AtMost),
            ("taper, end to end, at most", "", limit.Taper, FigureBound.AtMost),
            ("barrel, middle to ends, at most", "", limit.Barrel, FigureBound.AtMost),
            ("twist of the two rollers, at most", "", limit.Twist, FigureBound.AtMost),
            ("at or below: set up as a worn reel", "", limit.WornBelow, FigureBound.AtLeast),
        ];
        foreach (var line in lines)
        {
            if (line.Print is { } print)
            {
                yield return new(line.Name, line.Lead, [(print, line.Bound)]);
            }
        }

        foreach (var school in limit.Schools.Where(school => school.Passes is not null))
        {
            yield return new(
                "set to an air gap: feeler that just passes",
                "",
                [(school.Passes!, FigureBound.Nominal)]
            );
            if (school.Stops is { } stops)
            {
                yield return new(
                    "set to an air gap: feeler that does not",
                    "",
                    [(stops, FigureBound.Nominal)]
                );
            }
        }
    }

    private static IEnumerable<string> Said(QuantityLimit limit, bool hasNoFigure)
    {
        if (limit.Schools.Any(school => school is { School: ContactSchool.LightContact }))
        {
            yield return "set to light contact: over the full width";
        }
        else if (hasNoFigure)
        {
            yield return limit.Quantity switch
            {
                MeasuredQuantity.BearingPlay => "none, and turning freely",
                MeasuredQuantity.Guards => "in place and sound",
                MeasuredQuantity.Edge => "cuts a paper strip clean, over the full width",
                MeasuredQuantity.GroomerHeight => "set from the height of cut",
                MeasuredQuantity.RearRollerOnPlate => "with the front roller: see there",
                _ => "no figure",
            };
        }
    }

    private static string Stations(QuantityLimit limit) =>
        (limit.LeftStation, limit.RightStation) switch
        {
            ({ } left, { } right) when left.Unit == right.Unit =>
                $"{left.ToString().Split(' ')[0]} and {right} from the left end",
            ({ } left, { } right) => $"{left} and {right} from the left end",
            ({ } left, null) => $"{left} from the left end",
            (null, { } right) => $"{right} from the left end",
            _ => "",
        };

    private sealed record LimitLine(
        string Name,
        string Lead,
        ImmutableArray<(DualPrint Print, FigureBound Bound)> Prints
    );
}
